import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { knobFigure, knobValue, spoken } from './format.js';
import { stepOf } from './knob.js';
import { lengths } from './length.js';
import { readTyped } from './knob-typing.js';
import { carried, pathBetween, pathOf, spotAt, valueAt } from './track.js';
import { say } from './words.js';

/** @import { DimensionRow, Spot } from './dimension-data.d.ts' */
/** @import { Knob, SafeRange, Value } from './messages.d.ts' */

/** A pointer that moved less, in pixels, has tapped. */
const TAP = 3;
/** Page keys go so many steps at once. */
const PAGE = 10;
/** Length and half width of an arrow, px: closed and slender, as on the drawings (ISO 129-1; from memory). */
const ARROW = [9, 1.6];
/** So often the value under a resting pointer is looked for again. */
const PULLS = 3;
/** A line shorter than this has its arrows outside, px. */
const SHORT = 26;

/**
 * One dimension line over the picture, with what is needed to change its knob: grips at the ends that move, and the figure,
 * which can be typed.
 * @extends {Emitter<{ change: { name: string, value: Value }, hold: boolean, say: string, name: string, wrong: string }>}
 */
export class Dimension extends Emitter {
  #knob;
  #value = 0;
  /** @type {DimensionRow | undefined} */
  #row;
  /** @type {SafeRange | undefined} */
  #range;
  #lines = path('dimension-line');
  #aids = path('dimension-aid');
  #arrows = path('dimension-arrow');
  #bands = path('dimension-band');
  #hit = path('dimension-hit');
  /** @type {HTMLElement[]} */
  #grips;
  #figure;
  /** @type {HTMLInputElement | undefined} */
  #entry;
  #held = false;
  /** Looks again for the value under the pointer. @type {(() => void) | undefined} */
  #pull;
  #pulls = 0;

  /** @param {Knob} knob @param {string} how id of the words that say which keys do what */
  constructor(knob, how) {
    super();
    this.#knob = knob;
    this.drawing = document.createElementNS('http://www.w3.org/2000/svg', 'g');
    this.drawing.append(this.#bands, this.#aids, this.#lines, this.#arrows, this.#hit);
    this.#grips = [0, 1].map((i) => this.#grip(i, how));
    const name = say('dimension_type', { label: knob.label, value: '' });
    this.#figure = el('button', { type: 'button', class: 'dimension-figure', tabindex: '-1', 'aria-label': name, onclick: () => this.#type() });
    this.container = el('div', { class: 'dimension', 'data-knob': knob.name }, ...this.#grips, this.#figure);
    this.#hit.addEventListener('pointerdown', (event) => this.#drag(event, this.#nearest(event)));
  }

  /** Whether somebody is at it, so that it stays whatever the picture shows. */
  get busy() {
    return this.#held || this.#entry !== undefined;
  }

  /** @param {DimensionRow} row as the picture shows it */
  update(row) {
    this.#row = row;
    const { line, aids, tracks, label } = row;
    this.#lines.setAttribute('d', pathOf(line));
    this.#aids.setAttribute('d', aids.map(pathOf).join(''));
    this.#hit.setAttribute('d', pathOf(line));
    this.#arrows.setAttribute('d', arrows(line));
    this.#grips.forEach((grip, i) => {
      const track = tracks[i];
      grip.hidden = !track;
      if (track) move(grip, spotAt(track, row.value));
    });
    const [from, to] = [line[0], line.at(-1)];
    const upright = from && to && Math.abs(to[1] - from[1]) > Math.abs(to[0] - from[0]);
    this.#grips[0]?.setAttribute('aria-orientation', upright ? 'vertical' : 'horizontal');
    this.container.classList.toggle('upright', upright);
    move(this.#figure, label);
    if (this.#entry) move(this.#entry, label);
    this.#band();
    // Where a track has moved with the value, the line is not quite under the pointer yet.
    if (this.#held && this.#pulls++ < PULLS) this.#pull?.();
  }

  /** The picture has no room for it any more, while somebody is at it: it goes on along its own tracks. */
  carry() {
    const row = this.#row;
    if (row) this.#row = carried(row, this.#value);
    if (this.#row) this.update(this.#row);
  }

  /** @param {number} value as the knob stands */
  turn(value) {
    this.#value = value;
    const words = knobValue(this.#knob, value);
    setText(this.#figure, onPicture(this.#knob, value));
    this.#figure.setAttribute('aria-label', say('dimension_type', { label: this.#knob.label, value: words }));
    const grip = this.#grips[0];
    grip?.setAttribute('aria-valuenow', String(value));
    grip?.setAttribute('aria-valuetext', spoken(this.#knob, value));
  }

  /** Draws how far it holds; nothing while that is not known. @param {SafeRange} [range] @param {string} [words] the same in words */
  holds(range, words = '') {
    this.#range = range;
    this.#grips[0]?.setAttribute('aria-description', words);
    this.#figure.title = [this.#knob.label, words].filter(Boolean).join('. ');
    this.#band();
  }

  focus() {
    this.#grips[0]?.focus({ preventScroll: true });
  }

  /** @param {number} place @param {string} how */
  #grip(place, how) {
    const { label, min, max } = this.#knob;
    const traits = place === 0
      ? { role: 'slider', tabindex: '0', 'aria-label': say('dimension_name', { label }), 'aria-valuemin': min, 'aria-valuemax': max, 'aria-describedby': how }
      : { 'aria-hidden': 'true' };
    const grip = el('div', { class: 'dimension-grip', ...traits });
    grip.addEventListener('pointerdown', (event) => this.#drag(event, place));
    if (place > 0) return grip;
    grip.addEventListener('keydown', (event) => this.#key(event));
    grip.addEventListener('focus', () => this.emit('name', say('dimension_is', { label, value: knobValue(this.#knob, this.#value) })));
    return grip;
  }

  #band() {
    const { low, high } = this.#range?.span ?? {};
    const tracks = (low && high && this.#row?.tracks) || [];
    this.#bands.setAttribute('d', tracks.map((track) => pathBetween(track, low?.value ?? 0, high?.value ?? 0)).join(''));
  }

  // ---- By pointer ----

  /** The place of a pointer on the picture. @param {PointerEvent} event @returns {Spot} */
  #spot({ clientX, clientY }) {
    const { left, top } = /** @type {HTMLElement} */ (this.container.parentElement).getBoundingClientRect();
    return [clientX - left, clientY - top];
  }

  /** The end nearest to a pointer. @param {PointerEvent} event */
  #nearest(event) {
    const [x, y] = this.#spot(event);
    const far = (this.#row?.tracks ?? []).map((track) => {
      const [gx, gy] = spotAt(track, this.#row?.value ?? 0);
      return Math.hypot(gx - x, gy - y);
    });
    return far.indexOf(Math.min(...far));
  }

  /** The end keeps its distance from the pointer that it had at first. @param {PointerEvent} event @param {number} place */
  #drag(event, place) {
    const track = this.#row?.tracks[place];
    if (event.button !== 0 || !event.isPrimary || !track) return;
    event.preventDefault();
    event.stopPropagation();
    this.focus();
    const target = /** @type {Element} */ (event.currentTarget);
    const start = this.#spot(event);
    const grip = spotAt(track, this.#row?.value ?? this.#value);
    const aside = [start[0] - grip[0], start[1] - grip[1]];
    const done = new AbortController();
    const { signal } = done;
    target.setPointerCapture(event.pointerId);
    /** @param {PointerEvent} moved */
    const follow = (moved) => {
      const [x, y] = this.#spot(moved);
      if (!this.#held && Math.hypot(x - start[0], y - start[1]) < TAP) return;
      this.#hold(true);
      this.#pulls = 0;
      this.#pull = () => {
        const now = this.#row?.tracks[place];
        if (now) this.#wish(valueAt(now, [x - (aside[0] ?? 0), y - (aside[1] ?? 0)]));
      };
      this.#pull();
    };
    const release = () => {
      done.abort();
      this.#pull = undefined;
      this.#hold(false);
    };
    target.addEventListener('pointermove', /** @type {any} */ (follow), { signal });
    target.addEventListener('pointerup', release, { signal });
    target.addEventListener('pointercancel', release, { signal });
  }

  /** @param {boolean} held */
  #hold(held) {
    if (held === this.#held) return;
    this.#held = held;
    this.container.classList.toggle('held', held);
    this.drawing.classList.toggle('held', held);
    if (!held) this.emit('say', '');
    this.emit('hold', held);
  }

  // ---- By keyboard ----

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const { min, max } = this.#knob;
    const step = stepOf(this.#knob);
    const to = { Home: min, End: max }[event.key];
    const by = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1, PageUp: PAGE, PageDown: -PAGE }[event.key];
    if (to !== undefined) this.#set(to);
    else if (by !== undefined) this.#wish(this.#value + by * step);
    else if (event.key === 'Enter' || event.key === 'F2') this.#type();
    else if (/^\d$/.test(event.key)) this.#type(event.key);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  // ---- By typing ----

  /** Puts a field in the place of the figure. @param {string} [text] what it begins with; else the present figure */
  #type(text) {
    if (this.#entry) return;
    const entry = el('input', {
      class: 'dimension-entry',
      type: 'text',
      inputmode: this.#knob.unit === 'mm' ? 'text' : 'decimal',
      autocomplete: 'off',
      spellcheck: 'false',
      maxlength: '20',
      'aria-label': say('dimension_typed', { label: this.#knob.label }),
    });
    entry.value = text ?? knobFigure(this.#knob, this.#value);
    entry.addEventListener('keydown', (event) => this.#typing(event, entry));
    entry.addEventListener('blur', () => this.#close());
    this.#entry = entry;
    this.#figure.hidden = true;
    this.container.append(entry);
    if (this.#row) move(entry, this.#row.label);
    entry.focus({ preventScroll: true });
    if (text === undefined) entry.select();
  }

  /** @param {KeyboardEvent} event @param {HTMLInputElement} entry */
  #typing(event, entry) {
    event.stopPropagation();
    if (event.key === 'Escape') this.#leave();
    if (event.key !== 'Enter') return;
    event.preventDefault();
    // What stands there unchanged is the exact value, of which a fraction tells only a part.
    if (entry.value === knobFigure(this.#knob, this.#value)) return this.#leave();
    const { value, why } = readTyped(this.#knob, entry.value);
    entry.setAttribute('aria-invalid', String(why !== ''));
    this.emit('wrong', why);
    if (why || value === undefined) return;
    this.#set(value);
    this.#leave();
  }

  #leave() {
    this.#close();
    this.focus();
  }

  #close() {
    const entry = this.#entry;
    if (!entry) return;
    this.#entry = undefined;
    this.#figure.hidden = false;
    entry.remove();
    this.emit('wrong', '');
  }

  // ---- Values ----

  /** Sets the value nearest to a wish that the knob can take; says so where that is its end. @param {number} wish */
  #wish(wish) {
    const { min, max } = this.#knob;
    const step = stepOf(this.#knob);
    const base = this.#knob.unit === 'mm' && step !== this.#knob.step ? 0 : min;
    const even = base + Math.round((wish - base) / step) * step;
    this.#set(Number(Math.min(max, Math.max(min, even)).toFixed(4)));
  }

  /** @param {number} value */
  #set(value) {
    const { name, label, min, max } = this.#knob;
    const end = value === min ? 'dimension_least' : value === max ? 'dimension_most' : undefined;
    const words = knobValue(this.#knob, value);
    if (end) this.emit('say', say(end, { label, value: words }));
    else this.emit('name', say('dimension_is', { label, value: words }));
    if (value === this.#value) return;
    this.turn(value);
    this.emit('change', { name, value });
  }
}

/** A value as it stands on the picture, where inches have their short sign. @param {Knob} knob @param {number} value */
function onPicture(knob, value) {
  const isInches = knob.unit === 'mm' && lengths.unit === 'in';
  return isInches ? say('dimension_inches', { figure: knobFigure(knob, value) }) : knobValue(knob, value);
}

/** @param {HTMLElement} element @param {Spot} spot */
export function move(element, [x, y]) {
  element.style.setProperty('--x', `${x.toFixed(1)}px`);
  element.style.setProperty('--y', `${y.toFixed(1)}px`);
}

/** @param {string} name */
function path(name) {
  const made = document.createElementNS('http://www.w3.org/2000/svg', 'path');
  made.setAttribute('class', name);
  return made;
}

/** Arrows at both ends of a line; outside a short one. @param {Spot[]} line */
function arrows(line) {
  const [first, second, last, before] = [line[0], line[1], line.at(-1), line.at(-2)];
  if (!first || !second || !last || !before) return '';
  const long = line.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - (line[i]?.[0] ?? 0), y - (line[i]?.[1] ?? 0)), 0);
  if (long < 2) return '';
  const sign = long < SHORT ? -1 : 1;
  return arrow(first, second, sign) + arrow(last, before, sign);
}

/** The tip at `tip`, the shaft towards `from`. @param {Spot} tip @param {Spot} from @param {number} sign */
function arrow([x, y], [fx, fy], sign) {
  const far = Math.hypot(fx - x, fy - y) || 1;
  const [ux, uy] = [((fx - x) / far) * sign, ((fy - y) / far) * sign];
  const [long = 0, wide = 0] = ARROW;
  const [bx, by] = [x + ux * long, y + uy * long];
  return `${pathOf([[x, y], [bx - uy * wide, by + ux * wide], [bx + uy * wide, by - ux * wide]])}Z`;
}
