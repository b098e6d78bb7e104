import { el, setText } from './dom.js';
import { move } from './dimension.js';
import { Emitter } from './emitter.js';
import { number } from './format.js';
import { pathOf } from './track.js';
import { say } from './words.js';

/** @import { DimensionRow } from './dimension-data.d.ts' */
/** @import { Knob, SafeRange, Value } from './messages.d.ts' */

/**
 * How many slats or laths there are, beside them.
 * @extends {Emitter<{ change: { name: string, value: Value }, hold: boolean, say: string, name: string, wrong: string }>}
 */
export class DimensionCount extends Emitter {
  #knob;
  #value = 0;
  #leader = document.createElementNS('http://www.w3.org/2000/svg', 'path');
  #figure;
  #fewer;
  #more;

  /** @param {Knob} knob @param {string} how id of the words that say which keys do what */
  constructor(knob, how) {
    super();
    this.#knob = knob;
    const { label, min, max } = knob;
    this.#leader.setAttribute('class', 'dimension-aid');
    this.drawing = document.createElementNS('http://www.w3.org/2000/svg', 'g');
    this.drawing.append(this.#leader);
    const name = say('dimension_name', { label });
    this.#figure = el('span', { class: 'dimension-number', role: 'spinbutton', tabindex: '0', 'aria-label': name, 'aria-valuemin': min, 'aria-valuemax': max, 'aria-describedby': how });
    this.#figure.addEventListener('keydown', (event) => this.#key(event));
    this.#fewer = this.#button(-1, '−', 'dimension_fewer');
    this.#more = this.#button(1, '+', 'dimension_more');
    this.container = el('div', { class: 'dimension-count', 'data-knob': knob.name, role: 'group', 'aria-label': label, title: label }, this.#fewer, this.#figure, this.#more);
  }

  /** @param {DimensionRow} row */
  update({ aids, label }) {
    this.#leader.setAttribute('d', aids.map(pathOf).join(''));
    move(this.container, label);
  }

  /** @param {number} value */
  turn(value) {
    this.#value = value;
    const { min, max } = this.#knob;
    setText(this.#figure, number(value, 0));
    this.#figure.setAttribute('aria-valuenow', String(value));
    this.#fewer.disabled = value <= min;
    this.#more.disabled = value >= max;
  }

  /** @param {SafeRange} [range] @param {string} [words] */
  holds(range, words = '') {
    this.#figure.setAttribute('aria-description', words);
    this.container.title = [this.#knob.label, words].filter(Boolean).join('. ');
    const { low, high } = range?.span ?? {};
    const safe = !low || !high || (this.#value >= low.value && this.#value <= high.value);
    this.container.classList.toggle('beyond', !safe);
  }

  /** @param {number} by @param {string} sign @param {'dimension_fewer' | 'dimension_more'} word */
  #button(by, sign, word) {
    return el('button', { type: 'button', tabindex: '-1', text: sign, 'aria-label': say(word, { label: this.#knob.label }), onclick: () => this.#set(this.#value + by) });
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const { min, max } = this.#knob;
    const by = { ArrowUp: 1, ArrowRight: 1, PageUp: 1, ArrowDown: -1, ArrowLeft: -1, PageDown: -1 }[event.key];
    const to = { Home: min, End: max }[event.key] ?? (by === undefined ? undefined : this.#value + by);
    if (to === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    event.stopPropagation();
    this.#set(to);
  }

  /** @param {number} wish */
  #set(wish) {
    const { name, label, min, max } = this.#knob;
    const value = Math.min(max, Math.max(min, wish));
    const end = value === min ? 'dimension_least' : value === max ? 'dimension_most' : undefined;
    this.emit('say', end ? say(end, { label, value: number(value, 0) }) : '');
    if (value === this.#value) return;
    this.turn(value);
    this.emit('change', { name, value });
  }
}
