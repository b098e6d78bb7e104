import { Dimension } from './dimension.js';
import { DimensionCount } from './dimension-count.js';
import { debounce, el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { holdsWords } from './holds.js';
import { applies } from './knob-rules.js';
import { lengths } from './length.js';
import { say } from './words.js';

/** @import { DimensionRoom, DimensionRow } from './dimension-data.d.ts' */
/** @import { Design, Knob, SafeRange, Value } from './messages.d.ts' */

/** How long what was said stays, ms. */
const SAID = 4000;
/** Characters of the widest figure in each unit, with its unit. */
const LONGEST = { mm: 7, cm: 8, in: 11 };
/** Width of a character as a share of its size, and room around a figure, px. */
const CHARACTER = 0.53;
const AROUND = [12, 10];

/**
 * The sizes on the picture: lines and arcs to drag, figures to type, counts to step. The core lays them out; they lie over the
 * picture, and outlive its drawings.
 * @extends {Emitter<{ change: { name: string, value: Value }, hold: boolean, show: boolean }>}
 */
export class Dimensions extends Emitter {
  #knobs;
  /** @type {Map<string, Dimension | DimensionCount>} */
  #lines = new Map();
  /** @type {Map<string, SafeRange>} */
  #ranges = new Map();
  #failing = 0;
  /** @type {Design} */
  #design = {};
  #drawing = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  #note = el('p', { class: 'dimension-note', role: 'status' });
  #forget = debounce(SAID, () => setText(this.#note, ''));
  #check = el('input', { type: 'checkbox', checked: true, 'aria-label': say('dimensions_show_name') });
  #switch = el('div', { class: 'dimension-switch looks' }, el('label', { class: 'check' }, this.#check, el('span', { text: say('dimensions_show') })));
  #how = el('p', { id: 'dimension-how', hidden: true, text: say('dimension_how') });

  /** @param {HTMLElement} picture @param {ReadonlyMap<string, Knob>} knobs that can be turned, by name */
  constructor(picture, knobs) {
    super();
    this.#knobs = knobs;
    this.picture = picture;
    this.#drawing.setAttribute('class', 'dimension-drawing');
    this.#drawing.setAttribute('aria-hidden', 'true');
    this.#drawing.setAttribute('focusable', 'false');
    this.container = el('div', { class: 'dimensions', role: 'group', 'aria-label': say('dimensions') }, this.#how);
    this.container.prepend(this.#drawing);
    picture.after(this.#switch, this.container, this.#note);
    this.#check.addEventListener('change', () => this.emit('show', this.#check.checked));
  }

  /** What stands in the corner beside the switch. @param {HTMLElement} element */
  addToCorner(element) {
    this.#switch.append(element);
  }

  /** What the core must leave free; none where no sizes are wanted. @returns {DimensionRoom | undefined} */
  get room() {
    if (!this.#check.checked) return undefined;
    const size = parseFloat(getComputedStyle(this.container).fontSize);
    const frame = this.container.getBoundingClientRect();
    const others = [...this.#switch.children, ...(this.picture.parentElement?.querySelectorAll('.tint-buttons > *') ?? [])];
    const clear = others.map((other) => {
      const { left, top, right, bottom } = other.getBoundingClientRect();
      return /** @type {[number, number, number, number]} */ ([left - frame.left, top - frame.top, right - frame.left, bottom - frame.top]);
    });
    return {
      figure: [LONGEST[lengths.unit] * CHARACTER * size + (AROUND[0] ?? 0), size + (AROUND[1] ?? 0)],
      clear: clear.filter(([left, top, right, bottom]) => right > left && bottom > top),
    };
  }

  /** @param {DimensionRow[]} rows as they lie over the picture that is shown @param {Design} design as the knobs stand */
  update(rows, design) {
    const shown = rows.filter(({ knob }) => this.#isOpen(knob, design));
    for (const [name, line] of this.#lines) {
      if (shown.some(({ knob }) => knob === name)) continue;
      if (line instanceof Dimension && line.busy) {
        line.turn(Number(design[name]));
        line.carry();
        continue;
      }
      line.container.remove();
      line.drawing.remove();
      this.#lines.delete(name);
    }
    for (const row of shown) this.#line(row)?.update(row);
    this.turn(design);
  }

  /** The knobs have been turned. @param {Design} design */
  turn(design) {
    this.#design = design;
    for (const [name, line] of this.#lines) line.turn(Number(design[name]));
  }

  /** Another kind of chair, or another unit: all are made anew. */
  clear() {
    for (const { container, drawing } of this.#lines.values()) {
      container.remove();
      drawing.remove();
    }
    this.#lines.clear();
    this.#ranges.clear();
  }

  /** Draws how far sizes hold. @param {SafeRange[]} ranges @param {number} failing how many checks fail already */
  holds(ranges, failing) {
    this.#failing = failing;
    for (const range of ranges) {
      this.#ranges.set(range.knob, range);
      this.#tell(range.knob);
    }
  }

  /** What was known of how far they hold is out of date, but for the knob that was turned. @param {string} [turned] */
  forget(turned) {
    for (const name of [...this.#ranges.keys()]) {
      if (name === turned) continue;
      this.#ranges.delete(name);
      this.#tell(name);
    }
  }

  /**
   * Says something beside the picture, for a while. What a screen reader hears elsewhere is only shown.
   * @param {string} words @param {{ wrong?: boolean, heard?: boolean }} [options]
   */
  say(words, { wrong = false, heard = true } = {}) {
    this.#note.classList.toggle('wrong', wrong && words !== '');
    this.#note.setAttribute('aria-live', heard ? 'polite' : 'off');
    setText(this.#note, words);
    if (words) this.#forget();
  }

  /** @param {string} name @param {Design} design */
  #isOpen(name, design) {
    const knob = this.#knobs.get(name);
    return knob !== undefined && knob.min < knob.max && applies(knob, design);
  }

  /** @param {DimensionRow} row */
  #line({ knob: name, kind }) {
    const known = this.#lines.get(name);
    const knob = this.#knobs.get(name);
    if (known || !knob) return known;
    const made = kind === 'count' ? new DimensionCount(knob, 'dimension-how') : new Dimension(knob, 'dimension-how');
    made.on('change', (change) => this.emit('change', change));
    made.on('hold', (held) => this.emit('hold', held));
    made.on('say', (words) => this.say(words));
    made.on('name', (words) => this.say(words, { heard: false }));
    made.on('wrong', (words) => this.say(words, { wrong: true }));
    this.#lines.set(name, made);
    this.#drawing.append(made.drawing);
    this.container.append(made.container);
    made.turn(Number(this.#design[name]));
    this.#tell(name);
    return made;
  }

  /** @param {string} name */
  #tell(name) {
    const [knob, range] = [this.#knobs.get(name), this.#ranges.get(name)];
    this.#lines.get(name)?.holds(range, knob && range ? holdsWords(knob, range, this.#failing) : '');
  }
}
