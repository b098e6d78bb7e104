import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { number } from './format.js';

/**
 * @typedef {object} Scale
 * @property {number} min
 * @property {number} max
 * @property {number} step
 * @property {number} mark where the datum stands: from there the change is drawn
 * @property {string} label the accessible name
 * @property {number} [major] spacing of the longer ticks; a round one is chosen where it is absent
 * @property {number} [digits] decimals of the figures at the ends
 * @property {number} [size] how much one of the unit is, that figures are round in
 * @property {(value: number) => string} [write] how figures are written
 */

/**
 * A range slider that looks and reads like a rule: ticks at round values, figures at the ends,
 * a datum at the starting value, and a line from there to where the slider stands.
 * @extends {Emitter<{ input: number }>}
 */
export class Ruler extends Emitter {
  #scale;
  #input;
  #band = el('span', { class: 'ruler-band', hidden: true });
  #beyond = [0, 1].map(() => el('span', { class: 'ruler-beyond', hidden: true }));
  #ticks = el('span', { class: 'ruler-ticks', 'aria-hidden': 'true' }, this.#band, ...this.#beyond);

  /** @param {Scale} scale */
  constructor(scale) {
    super();
    this.#scale = scale;
    const { min, max, step, label } = scale;
    this.#input = el('input', { type: 'range', class: 'ruler-input', min, max, step, 'aria-label': label });
    this.#input.addEventListener('input', () => this.emit('input', Number(this.#input.value)));
    const end = (/** @type {number} */ value) => el('span', { text: this.#write(value, scale.digits) });
    const ends = el('span', { class: 'ruler-ends', 'aria-hidden': 'true' }, end(min), end(max));
    this.container = el('div', { class: 'ruler' }, this.#ticks, this.#input, ends);
    this.#draw();
  }

  /**
   * @param {number} value
   * @param {string} spoken the value as a screen reader says it
   */
  update(value, spoken) {
    this.#input.value = String(value);
    this.#input.setAttribute('aria-valuetext', spoken);
    const [from, to] = [this.#share(this.#scale.mark), this.#share(value)];
    this.#place('--from', Math.min(from, to));
    this.#place('--to', Math.max(from, to));
    this.#place('--at', to);
  }

  /**
   * Draws a band from one value to another, closed where something stops it and hatched beyond; none without an argument.
   * @param {{ low: number, high: number, stops: [boolean, boolean] }} [band]
   */
  band(band) {
    this.#band.hidden = !band;
    this.#beyond.forEach((beyond, i) => (beyond.hidden = !band?.stops[i]));
    if (!band) return;
    this.#place('--low', this.#share(band.low));
    this.#place('--high', this.#share(band.high));
    this.#band.classList.toggle('stops-below', band.stops[0]);
    this.#band.classList.toggle('stops-above', band.stops[1]);
  }

  /** @param {string} id of the element that says more of it */
  describe(id) {
    this.#input.setAttribute('aria-describedby', id);
  }

  /** @param {string} label */
  rename(label) {
    this.#input.setAttribute('aria-label', label);
  }

  #draw() {
    const { min, max, mark } = this.#scale;
    const { size = 1 } = this.#scale;
    const major = this.#scale.major ?? roundSpacing((max - min) / size) * size;
    this.container.style.setProperty('--mark-share', String(this.#share(mark)));
    this.#tick('major', major);
    this.#tick('minor', major / 5);
    const first = Math.ceil(min / major) * major;
    for (let at = first; at <= max; at += major) this.#figure(at);
  }

  /** A background image repeats from its position, which CSS counts in the room it leaves over. @param {string} kind @param {number} spacing */
  #tick(kind, spacing) {
    const { min, max } = this.#scale;
    const size = spacing / (max - min);
    const first = (Math.ceil(min / spacing - 1e-9) * spacing - min) / (max - min);
    this.#place(`--${kind}`, size);
    this.#place(`--${kind}-at`, size < 1 ? first / (1 - size) : 0);
  }

  /** Figures between the ends, where they have room. @param {number} at */
  #figure(at) {
    const share = this.#share(at);
    if (share < 0.15 || share > 0.85) return;
    const figure = el('span', { class: 'ruler-figure' });
    setText(figure, this.#write(at));
    figure.style.setProperty('--at', `${share * 100}%`);
    this.#ticks.append(figure);
  }

  /** @param {number} value @param {number} [digits] */
  #write(value, digits = 2) {
    return this.#scale.write?.(value) ?? number(value, digits);
  }

  /** @param {number} value */
  #share(value) {
    const { min, max } = this.#scale;
    return Math.min(1, Math.max(0, (value - min) / (max - min)));
  }

  /** @param {string} name @param {number} share */
  #place(name, share) {
    this.container?.style.setProperty(name, `${+(share * 100).toFixed(4)}%`);
  }
}

/** 1, 2 or 5 times a power of ten, so that a range has two to five longer ticks. @param {number} range */
function roundSpacing(range) {
  const rough = range / 4;
  const power = 10 ** Math.floor(Math.log10(rough));
  const times = [1, 2, 5, 10].find((candidate) => candidate * power >= rough) ?? 10;
  return times * power;
}
