import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { knobValue } from './format.js';
import { KnobControl } from './knob.js';

/** @import { Design, Knob, Value } from './messages.d.ts' */

/** @typedef {{ box: HTMLDetailsElement, line: HTMLElement, knobs: Knob[] }} Group */

/**
 * All knobs, grouped, made from the core's table and nothing else.
 * @extends {Emitter<{ change: { name: string, value: Value } }>}
 */
export class KnobPanel extends Emitter {
  #knobs;
  /** @type {Map<string, KnobControl>} */
  #controls = new Map();
  /** @type {Group[]} */
  #groups;

  /**
   * @param {HTMLElement} container
   * @param {Knob[]} knobs
   */
  constructor(container, knobs) {
    super();
    this.container = container;
    this.#knobs = knobs;
    for (const knob of knobs) this.#add(knob);
    this.#groups = grouped(knobs).map((group, i) => this.#group(group, i));
    container.replaceChildren(...this.#groups.map(({ box }) => box));
  }

  /** @param {Design} design */
  update(design) {
    for (const { name } of this.#knobs) {
      const value = design[name];
      if (value !== undefined) this.#controls.get(name)?.update(value);
    }
    this.#rows(design);
  }

  /** After one knob was turned by hand: only what depends on it changes. @param {Design} design */
  refresh(design) {
    this.#rows(design);
  }

  /**
   * Lights the knobs that clash and the heads of their groups, and clears the others. No group is
   * opened by itself: the knob that is being dragged must stay under the hand.
   * @param {string[]} names
   */
  clash(names) {
    for (const [name, control] of this.#controls) control.clash(names.includes(name));
    for (const { box, knobs } of this.#groups) {
      box.classList.toggle('clash', knobs.some(({ name }) => names.includes(name)));
    }
  }

  /**
   * Says beside a knob what is wrong with its value.
   * @param {string} name
   * @param {string} why
   */
  complain(name, why) {
    this.#controls.get(name)?.complain(why);
  }

  /** Opens the knob's group and moves the focus to it. @param {string} name */
  focus(name) {
    const group = this.#groups.find(({ knobs }) => knobs.some((knob) => knob.name === name));
    if (group) group.box.open = true;
    this.#controls.get(name)?.focus();
  }

  /** @param {Knob} knob */
  #add(knob) {
    const control = new KnobControl(knob);
    control.on('change', (change) => this.emit('change', change));
    this.#controls.set(knob.name, control);
  }

  /** @param {Knob[]} knobs @param {number} i @returns {Group} */
  #group(knobs, i) {
    const line = el('span', { class: 'group-line' });
    const name = el('span', { class: 'group-name', text: knobs[0]?.groupLabel });
    const rows = knobs.map((knob) => this.#controls.get(knob.name)?.container);
    const box = el(
      'details',
      { class: 'group', open: i === 0 },
      el('summary', {}, name, line),
      el('div', { class: 'group-knobs', role: 'group', 'aria-label': knobs[0]?.groupLabel }, ...rows),
    );
    return { box, line, knobs };
  }

  /** @param {Design} design */
  #rows(design) {
    for (const knob of this.#knobs) this.#controls.get(knob.name)?.applies(applies(knob, design));
    for (const { line, knobs } of this.#groups) {
      const changed = knobs.filter((knob) => applies(knob, design) && (design[knob.name] ?? knob.default) !== knob.default);
      line.classList.toggle('changed', changed.length > 0);
      setText(line, changed.length > 0 ? changed.map((knob) => said(knob, design)).join(', ') : knobs.map(({ label }) => label).join(', '));
    }
  }
}

/** @param {Knob} knob @param {Design} design */
function said(knob, design) {
  return `${knob.label} ${knobValue(knob, design[knob.name] ?? knob.default)}`;
}

/** @param {Knob[]} knobs in the core's order @returns {Knob[][]} */
function grouped(knobs) {
  return [...Map.groupBy(knobs, ({ group }) => group).values()];
}

/** @param {Knob} knob @param {Design} design */
function applies({ applies: rule }, design) {
  if (!rule) return true;
  const value = design[rule.knob];
  if (rule.not !== undefined && value === rule.not) return false;
  return !rule.is || (value !== undefined && rule.is.includes(value));
}
