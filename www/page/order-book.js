import { Emitter } from './emitter.js';
import { keep, kept, setAside } from './store.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Design, Order } from './messages.d.ts' */

/** @typedef {Order['lines'][number]} Line */
/** @typedef {{ design: Design, name: string }} Named */

/** The name under which the order is kept in this browser. */
const KEY = 'order';
/** As many as an order holds: designs, and chairs of each. */
export const MOST_DESIGNS = 40;
export const MOST_CHAIRS = 999;

/**
 * The order that is being put together: designs with quantities, kept in this browser as an order.json. Values are never
 * changed in place, so whoever holds an order can put it back.
 * @extends {Emitter<{ change: null, refused: null, corrupt: { why: string, key: string } }>}
 */
export class OrderBook extends Emitter {
  /** @type {Order} */
  #order = empty();
  /** @type {number | undefined} the line that the chair on screen was opened from, or put into */
  shown;
  #refused = false;
  /** @type {Promise<void> | undefined} */
  #brought;

  /** Whether nothing is in it. */
  get bare() {
    return this.#order.lines.length === 0;
  }

  get full() {
    return this.#order.lines.length >= MOST_DESIGNS;
  }

  get order() {
    return this.#order;
  }

  get lines() {
    return this.#order.lines;
  }

  get chairs() {
    return this.lines.reduce((sum, { quantity }) => sum + quantity, 0);
  }

  /** What this browser keeps, read once; what cannot be read is set aside. @param {Bridge} bridge @returns {Promise<void>} */
  bring(bridge) {
    this.#brought ??= this.#bring(bridge);
    return this.#brought;
  }

  /** @param {Bridge} bridge */
  async #bring(bridge) {
    const text = kept(KEY);
    if (!text) return;
    const answer = await bridge.ask('readOrder', text);
    if (answer.ok) return this.#become(answer.ok.order);
    if (answer.error.where === 'worker') this.#brought = undefined;
    else this.emit('corrupt', { why: answer.error.why, key: setAside(KEY) });
  }

  /** @param {Named} named @param {number} quantity */
  add({ design, name }, quantity) {
    this.shown = this.lines.length;
    this.#take([...this.lines, { name, quantity, knobs: design }]);
  }

  /** Puts another design into a line. @param {number} at @param {Named} named */
  put(at, { design, name }) {
    this.shown = at;
    // What the customer was told was told of the former design.
    this.#take(this.lines.map((line, i) => (i === at ? { name, quantity: line.quantity, knobs: design } : line)));
  }

  /** @param {number} at @param {number} quantity */
  count(at, quantity) {
    this.#take(this.lines.map((line, i) => (i === at ? { ...line, quantity } : line)));
  }

  /** @param {number} at */
  remove(at) {
    if (this.shown === at) this.shown = undefined;
    else if (this.shown !== undefined && this.shown > at) this.shown -= 1;
    this.#take(this.lines.filter((_, i) => i !== at));
  }

  /** @param {{ name?: string, customer?: string }} names */
  call(names) {
    if (Object.entries(names).every(([key, value]) => this.#order[/** @type {'name' | 'customer'} */ (key)] === value)) return;
    this.#become({ ...this.#order, ...names });
  }

  /** Puts a whole order in the place of this one. @param {Order} order @param {number} [shown] */
  replace(order, shown) {
    this.shown = shown;
    this.#become(order);
  }

  empty() {
    this.replace({ ...empty(), customer: this.#order.customer ?? '' });
  }

  /** @param {Line[]} lines */
  #take(lines) {
    this.#become({ ...this.#order, crestrail: 'order/2', lines });
  }

  /** @param {Order} order */
  #become(order) {
    this.#order = order;
    const good = keep(KEY, this.bare ? '' : JSON.stringify(order));
    if (!good && !this.#refused) this.emit('refused', null);
    this.#refused = !good;
    this.emit('change', null);
  }
}

/** @returns {Order} */
function empty() {
  return { crestrail: 'order/2', name: '', customer: '', lines: [] };
}
