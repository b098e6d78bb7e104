import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { money } from './format.js';
import { Job } from './job.js';
import { say } from './words.js';

/** @import { Swing, Tornado } from './messages.d.ts' */

/** So many knobs are shown: those below them hardly move the price. */
const MOST = 12;

/**
 * What moves the price: a bar for each knob, from the cheapest to the dearest of what was tried, the present price
 * as a line through all of them. It is worked out only when somebody opens it.
 * @extends {Emitter<{ wanted: null, knob: string }>}
 */
export class Moves extends Emitter {
  #state = el('p', { class: 'list-note', role: 'status' });
  #rows = el('ul', { class: 'moves' });
  job = new Job(say('moves'), (words) => this.#told(words));
  #again = el('button', { type: 'button', class: 'plain-button', text: say('moves_again'), hidden: true, onclick: () => this.#want() });
  #details = el('details', { class: 'bill-group moves-group' }, el('summary', {}, el('span', { text: say('moves') })), this.#state, this.job.container, this.#again, this.#rows);
  #known = false;
  container = this.#details;

  constructor() {
    super();
    this.#details.addEventListener('toggle', () => this.#details.open && !this.#known && this.#want());
  }

  /** The design has changed: what is shown is of an earlier one, and what is worked out is no longer asked. */
  stale() {
    if (!this.#known) return;
    this.job.giveWay();
    this.#settle(false);
    setText(this.#state, say('moves_stale'));
    this.#rows.classList.add('stale');
  }

  #want() {
    this.#settle(true);
    this.emit('wanted', null);
  }

  /** Whether it is known, or being worked out, for the chair that is shown; if not, it may be asked for again. @param {boolean} known */
  #settle(known) {
    this.#known = known;
    this.#again.hidden = known;
  }

  /** What the job tells of itself: that it has begun, or that it was stopped. @param {string} words */
  #told(words) {
    this.#settle(this.job.runs);
    setText(this.#state, words);
  }

  /** @param {string} why */
  fail(why) {
    this.#settle(false);
    setText(this.#state, why);
  }

  /** @param {Tornado} tornado */
  update(tornado) {
    this.#settle(true);
    const swings = tornado.swings.slice(0, MOST);
    const low = Math.min(...swings.map((swing) => swing.low.price_minor));
    const high = Math.max(...swings.map((swing) => swing.high.price_minor));
    const at = (/** @type {number} */ price) => (high > low ? (100 * (price - low)) / (high - low) : 0);
    this.#rows.classList.remove('stale');
    setText(this.#state, say('moves_note', { price: money(tornado.price_minor, tornado) }));
    this.#rows.replaceChildren(...swings.map((swing) => this.#row(swing, tornado, at)));
  }

  /** @param {Swing} swing @param {Tornado} tornado @param {(price: number) => number} at */
  #row({ knob, label, low, high }, tornado, at) {
    const [from, to, now] = [low, high, { price_minor: tornado.price_minor }].map(({ price_minor: price }) => at(price));
    const bar = el('span', { class: 'moves-bar', 'aria-hidden': 'true' }, el('span', { class: 'moves-range' }), el('span', { class: 'moves-now' }));
    bar.style.setProperty('--from', `${from}%`);
    bar.style.setProperty('--to', `${to}%`);
    bar.style.setProperty('--now', `${now}%`);
    const end = (/** @type {Swing['low']} */ tried) => say('pair', { name: tried.say, value: money(tried.price_minor, tornado) });
    return el(
      'li',
      {},
      el('button', { type: 'button', class: 'moves-knob', text: label, onclick: () => this.emit('knob', knob) }),
      bar,
      el('span', { class: 'moves-ends' }, el('span', { text: end(low) }), el('span', { text: end(high) })),
    );
  }
}
