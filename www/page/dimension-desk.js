import { Dimensions } from './dimensions.js';
import { glide } from './glide.js';
import { lengths } from './length.js';
import { Play } from './play.js';

/** @import { Dimensions as Told, Held } from './dimension-data.d.ts' */
/** @import { Design, SafeRange, Value } from './messages.d.ts' */
/** @import { Picture } from './picture.js' */
/** @import { Session } from './session.js' */

/** A glide of this length brings a picture that was held back to its place; the whole of one is 1. */
const BACK = 0.35;
/** Scales that differ by less are one. */
const SAME = 1e-3;

/**
 * @typedef {object} Around what the sizes on the picture are handed
 * @property {Picture} picture
 * @property {Session} session
 * @property {(change: Parameters<Session['look']>[0]) => void} look
 * @property {(change: { name: string, value: Value }) => void} turn a knob is turned on the picture
 */

/**
 * Keeps the sizes on the picture in step with knobs and picture. While one is dragged the picture keeps scale and place, so
 * that the line stays under the pointer; then it glides to where it belongs.
 */
export class DimensionDesk {
  #around;
  #lines;
  #play;
  /** @type {Told | undefined} of the picture that is shown */
  #told;
  #held = false;
  #freed = false;
  #stop = () => {};

  /** @param {Around} around */
  constructor(around) {
    this.#around = around;
    const { picture, session, look, turn } = around;
    this.#lines = new Dimensions(picture.container, session.knobs);
    this.#play = new Play({ look, say: (words) => this.#lines.say(words) });
    this.#lines.addToCorner(this.#play.button);
    this.#lines.on('change', turn);
    this.#lines.on('show', () => look({ dimensions: this.#lines.room }));
    this.#lines.on('hold', (held) => (held ? this.#hold() : this.#free()));
    picture.on('size', () => look({ dimensions: this.#lines.room }));
    picture.container.addEventListener('pointerdown', () => this.#settle());
  }

  /** The first view: room for the sizes is kept from the start. */
  begin() {
    this.#around.session.look({ dimensions: this.#lines.room });
  }

  /** A picture is shown, with what lies over it. @param {Told | undefined} told @param {string[]} [titles] of the steps of assembly */
  show(told, titles) {
    this.#told = told;
    this.#lines.update(told?.rows ?? [], this.#around.session.design);
    this.#play.update(told?.steps ?? 0, titles, this.#around.session.view);
    if (this.#freed && told) this.#glide(told.fit);
  }

  /** The knobs have been turned elsewhere. @param {Design} design */
  turned(design) {
    this.#lines.turn(design);
  }

  /** Draws how far sizes hold. @param {SafeRange[]} ranges @param {number} failing how many checks fail already */
  holds(ranges, failing) {
    this.#lines.holds(ranges, failing);
  }

  /** What was known of that is out of date. @param {string} [turned] but for this knob */
  forget(turned) {
    this.#lines.forget(turned);
  }

  /** Another kind of chair, or another unit of length. */
  renew() {
    // Measured before anything is changed: after that the whole page would be laid out for it.
    const { room } = this.#lines;
    this.#lines.clear();
    this.#lines.update(this.#told?.rows ?? [], this.#around.session.design);
    this.#around.session.look({ dimensions: room });
  }

  #hold() {
    this.#settle(false);
    this.#held = true;
    this.#lines.container.toggleAttribute('data-held', true);
    if (this.#told) this.#around.session.look({ held: this.#told.held });
  }

  /** The next picture tells where it belongs. */
  #free() {
    this.#held = false;
    this.#freed = true;
    this.#around.look({});
  }

  /** @param {Held} fit */
  #glide(fit) {
    this.#freed = false;
    const { held } = this.#around.session.view;
    if (!held || Math.abs(fit.scale / held.scale - 1) + Math.abs(fit.focus[1] - held.focus[1]) * SAME < SAME) return this.#settle();
    const between = (/** @type {number} */ a, /** @type {number} */ b, /** @type {number} */ share) => a + (b - a) * share;
    this.#stop = glide(0, BACK, (at) => {
      const share = at / BACK;
      const focus = /** @type {[number, number]} */ (held.focus.map((was, i) => between(was, fit.focus[i] ?? was, share)));
      if (share < 1) this.#around.look({ held: { scale: between(held.scale, fit.scale, share), focus } });
      else this.#let();
    });
  }

  /** The picture finds scale and place by itself again. */
  #let() {
    this.#lines.container.toggleAttribute('data-held', false);
    this.#around.look({ held: undefined });
  }

  /** @param {boolean} [drawn] whether the picture is drawn anew */
  #settle(drawn = true) {
    this.#stop();
    this.#stop = () => {};
    this.#freed = false;
    if (this.#held || !this.#around.session.view.held) return;
    if (drawn) this.#let();
  }
}

/** Hears when another unit of length is chosen. @param {() => void} renew */
export function onLengths(renew) {
  lengths.on('change', renew);
}
