import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { knobValue } from './format.js';
import { KnobControl } from './knob.js';
import { applies, grouped, turnable } from './knob-rules.js';
import { listed } from './words.js';

/** @import { Design, Knob, SafeRange, Value } from './messages.d.ts' */

/** @typedef {{ key: string, box: HTMLDetailsElement, line: HTMLElement, knobs: Knob[] }} Group */

const OPEN_AT_FIRST = ['use', 'size'];

/**
 * All knobs, grouped, made from the core's table and nothing else.
 * @extends {Emitter<{ change: { name: string, value: Value }, help: { knob: Knob, box: HTMLElement } }>}
 */
export class KnobPanel extends Emitter {
  /** @type {Knob[]} */
  #table = [];
  /** @type {Knob[]} */
  #knobs = [];
  /** @type {Map<string, KnobControl>} */
  #controls = new Map();
  /** @type {Group[]} */
  #groups = [];

  #allOpen;

  /** @param {HTMLElement} container @param {{ allOpen?: boolean }} [options] whether every group is open at first, as where they are few */
  constructor(container, { allOpen = false } = {}) {
    super();
    this.container = container;
    this.#allOpen = allOpen;
  }

  /**
   * Makes the controls of a kind of chair anew; groups that were open stay so, and at first who it is for and the
   * sizes are.
   * @param {Knob[]} table
   */
  lay(table) {
    if (table === this.#table) return;
    this.#table = table;
    const isFirst = this.#groups.length === 0 || this.#allOpen;
    const first = this.#allOpen ? table.map(({ group }) => group) : OPEN_AT_FIRST;
    const open = new Set(isFirst ? first : this.#groups.filter(({ box }) => box.open).map(({ key }) => key));
    this.#knobs = turnable(table);
    const had = this.#controls;
    // A knob that is the same in both kinds of chair keeps its control: to make all anew takes longer than anything else here.
    this.#controls = new Map(this.#knobs.map((knob) => [knob.name, kept(had.get(knob.name), knob) ?? this.#control(knob)]));
    const before = this.#groups;
    this.#groups = grouped(this.#knobs).map((knobs) => this.#same(before, knobs) ?? this.#group(knobs, open.has(knobs[0]?.group ?? '')));
    const boxes = this.#groups.map(({ box }) => box);
    if (before.length !== boxes.length || boxes.some((box, i) => box !== before[i]?.box)) this.container.replaceChildren(...boxes);
  }

  /** @param {Design} design */
  update(design) {
    for (const { name } of this.#knobs) {
      const value = design[name];
      if (value !== undefined) this.#controls.get(name)?.update(value);
    }
    this.refresh(design);
  }

  /** One knob was turned elsewhere. @param {string} name @param {Value} value */
  turn(name, value) {
    this.#controls.get(name)?.update(value);
  }

  /** Makes the controls anew, as where lengths are written in another unit. */
  renew() {
    const table = this.#table;
    this.#table = [];
    this.#controls.clear();
    this.lay(table);
  }

  /** After one knob was turned by hand: only what depends on it changes. @param {Design} design */
  refresh(design) {
    for (const knob of this.#knobs) this.#controls.get(knob.name)?.applies(applies(knob, design));
    for (const { box, line, knobs } of this.#groups) {
      const shown = knobs.filter((knob) => applies(knob, design));
      const changed = shown.filter((knob) => (design[knob.name] ?? knob.default) !== knob.default);
      box.hidden = shown.length === 0;
      line.classList.toggle('changed', changed.length > 0);
      setText(line, listed(changed.length > 0 ? changed.map((knob) => said(knob, design)) : shown.map(({ label }) => label)));
    }
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
   * Shows how far knobs can be turned.
   * @param {SafeRange[]} ranges @param {number} failing how many checks fail already
   */
  holds(ranges, failing) {
    for (const range of ranges) this.#controls.get(range.knob)?.holds(range, failing);
  }

  /** What was known of how far they can be turned is out of date, but for the knob that was turned. @param {string} [turned] */
  forget(turned) {
    for (const [name, control] of this.#controls) if (name !== turned) control.holds();
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
  #control(knob) {
    const control = new KnobControl(knob);
    control.on('change', (change) => this.emit('change', change));
    control.on('help', (wanted) => this.emit('help', wanted));
    return control;
  }

  /** A group that has just these controls already. @param {Group[]} groups @param {Knob[]} knobs @returns {Group | undefined} */
  #same(groups, knobs) {
    const group = groups.find(({ key }) => key === knobs[0]?.group);
    const rows = group?.box.lastElementChild?.children ?? [];
    const same = rows.length === knobs.length && knobs.every(({ name }, i) => this.#controls.get(name)?.container === rows[i]);
    return group && same ? { ...group, knobs } : undefined;
  }

  /** @param {Knob[]} knobs @param {boolean} open @returns {Group} */
  #group(knobs, open) {
    const { group: key = '', groupLabel } = knobs[0] ?? {};
    const line = el('span', { class: 'group-line' });
    const rows = knobs.map((knob) => this.#controls.get(knob.name)?.container);
    const box = el(
      'details',
      { class: 'group', open, 'data-group': key },
      el('summary', {}, el('span', { class: 'group-name', text: groupLabel }), line),
      el('div', { class: 'group-knobs', role: 'group', 'aria-label': groupLabel }, ...rows),
    );
    return { key, box, line, knobs };
  }
}

/** @param {KnobControl | undefined} control @param {Knob} knob */
function kept(control, knob) {
  return control?.isOf(knob) ? control : undefined;
}

/** @param {Knob} knob @param {Design} design */
function said(knob, design) {
  return `${knob.label} ${knobValue(knob, design[knob.name] ?? knob.default)}`;
}
