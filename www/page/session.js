import { tidyName } from './head.js';

/** @import { Design, Knob, Report, Value, View } from './messages.d.ts' */

/**
 * What the page is about at this moment: the design as the knobs stand, the last one that could be
 * built, its name, and how it is looked at. Holds values only; `main.js` tells the widgets.
 */
export class Session {
  /** @type {Map<string, Knob>} of the present kind of chair; always the same map */
  knobs = new Map();
  /** @type {Design} as the knobs stand */
  design = {};
  /** @type {Design} the last that could be built */
  built = {};
  name = '';
  /** @type {View} */
  view = { turn: -32, tilt: 18, spread: 0, scheme: 'light', letters: false, colour: 'wood' };
  /** @type {boolean | undefined} as chosen; else letters come when the chair is taken apart */
  letters;
  /** @type {Report | undefined} of `built` */
  report;

  /** @type {unknown} the workshop's file; the invented one where there is none */
  shop;

  /** @type {unknown} the showroom's file that this browser keeps */
  showroom;

  /** @returns {Design} */
  defaults() {
    return Object.fromEntries([...this.knobs.values()].map((knob) => [knob.name, knob.default]));
  }

  /** Whether any knob stands elsewhere than at its kind's first value. */
  get changed() {
    return [...this.knobs.values()].some((knob) => this.design[knob.name] !== knob.default);
  }

  /** Tells later whether the chair that is shown and the workshop are still those of now. @returns {() => boolean} */
  watch() {
    const { built, shop } = this;
    return () => built === this.built && shop === this.shop;
  }

  /** @param {string} name @param {Value} value */
  set(name, value) {
    this.design = { ...this.design, [name]: value };
  }

  /**
   * @param {Knob[]} knobs of the design's kind
   * @param {Design} design values that are missing stand at their defaults
   */
  open(knobs, design, name = this.name) {
    this.knobs.clear();
    for (const knob of knobs) this.knobs.set(knob.name, knob);
    this.design = { ...this.defaults(), ...design };
    // Until something has been built, the first values of the kind stand for it.
    if (Object.keys(this.built).length === 0) this.built = this.defaults();
    this.name = tidyName(name);
  }

  /** @param {Partial<View>} change angles are kept within a turn, and the eye between floor and zenith */
  look(change) {
    const view = { ...this.view, ...change };
    // Taken apart or together by hand, it no longer shows how it is assembled.
    if (change.spread !== undefined) view.assembled = change.assembled;
    view.turn = view.turn - 360 * Math.round(view.turn / 360);
    view.tilt = Math.min(90, Math.max(-10, view.tilt));
    view.spread = Math.min(1, Math.max(0, view.spread));
    view.letters = this.letters ?? (view.spread > 0 || view.assembled !== undefined);
    this.view = view;
  }

  /** @param {string} knob */
  labelOf(knob) {
    return this.knobs.get(knob)?.label ?? knob;
  }
}
