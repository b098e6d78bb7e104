import { Emitter } from './emitter.js';
import { keep, kept, NAMES, setAside } from './store.js';

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
 * changed in place, so whoever holds an order can put it back. What another tab writes is taken over, and told (`elsewhere`); a change
 * is made to the order as it is kept then, so that no tab writes over another; `gone` where the line it is about is there no more.
 * @extends {Emitter<{ change: null, refused: null, elsewhere: null, gone: null, corrupt: { why: string, key: string } }>}
 */
export class OrderBook extends Emitter {
  /** @type {Order} */
  #order = empty();
  /** @type {number | undefined} the line that the chair on screen was opened from, or put into */
  shown;
  #refused = false;
  /** @type {Promise<void> | undefined} */
  #brought;
  /** What this browser keeps, as this tab last read or wrote it; absent before it has. @type {string | undefined} */
  #text;
  /** Counts what other tabs changed. */
  revision = 0;

  constructor() {
    super();
    addEventListener('storage', ({ key }) => key === NAMES + KEY && this.refresh());
  }

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
    const text = kept(KEY) ?? '';
    this.#text = text;
    if (!text) return;
    const answer = await bridge.ask('readOrder', text);
    // Another tab may have written meanwhile.
    if (answer.ok) return this.refresh() ? undefined : this.#become(answer.ok.order);
    if (answer.error.where === 'worker') this.#brought = this.#text = undefined;
    else this.emit('corrupt', { why: answer.error.why, key: setAside(KEY) });
  }

  /** Takes over what another tab has written since. @returns {boolean} whether there was anything */
  refresh() {
    const text = kept(KEY) ?? '';
    if (this.#text === undefined || text === this.#text) return false;
    const order = text === '' ? empty() : read(text);
    if (!order) {
      this.#text = undefined;
      this.emit('corrupt', { why: '', key: setAside(KEY) });
      return false;
    }
    this.#text = text;
    const shown = this.shown === undefined ? undefined : this.lines[this.shown];
    this.#order = order;
    this.shown = shown && this.#find(shown);
    this.revision += 1;
    this.emit('elsewhere', null);
    this.emit('change', null);
    return true;
  }

  /** @param {Line} line @returns {number | undefined} where one like it stands */
  #find(line) {
    const like = JSON.stringify(line);
    const at = this.lines.findIndex((one) => JSON.stringify(one) === like);
    return at < 0 ? undefined : at;
  }

  /** Where the line now stands that is shown at a place. @param {number} at @returns {number | undefined} undefined where another tab has changed it or taken it out, which is told */
  still(at) {
    const line = this.lines[at];
    if (!this.refresh()) return at;
    const now = line && this.#find(line);
    if (now === undefined) this.emit('gone', null);
    return now;
  }

  /** @param {Named} named @param {number} quantity */
  add({ design, name }, quantity) {
    this.refresh();
    this.shown = this.lines.length;
    this.#take([...this.lines, { name, quantity, knobs: design }]);
  }

  /** Puts another design into a line. @param {number} place @param {Named} named */
  put(place, { design, name }) {
    const at = this.still(place);
    if (at === undefined) return;
    this.shown = at;
    // What the customer was told was told of the former design.
    this.#take(this.lines.map((line, i) => (i === at ? { name, quantity: line.quantity, knobs: design } : line)));
  }

  /** @param {number} place @param {number} quantity */
  count(place, quantity) {
    const at = this.still(place);
    if (at === undefined) return;
    this.#take(this.lines.map((line, i) => (i === at ? { ...line, quantity } : line)));
  }

  /** @param {number} place */
  remove(place) {
    const at = this.still(place);
    if (at === undefined) return;
    if (this.shown === at) this.shown = undefined;
    else if (this.shown !== undefined && this.shown > at) this.shown -= 1;
    this.#take(this.lines.filter((_, i) => i !== at));
  }

  /** @param {{ name?: string, customer?: string }} names */
  call(names) {
    this.refresh();
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
    const text = this.bare ? '' : JSON.stringify(order);
    const good = keep(KEY, text);
    // Where nothing can be kept there is nothing of another tab's either.
    this.#text = good ? text : undefined;
    if (!good && !this.#refused) this.emit('refused', null);
    this.#refused = !good;
    this.emit('change', null);
  }
}

/** @returns {Order} */
function empty() {
  return { crestrail: 'order/2', name: '', customer: '', lines: [] };
}

/** An order that another tab of this page wrote; the core reads it closely when it is priced. @param {string} text @returns {Order | undefined} */
function read(text) {
  try {
    const order = JSON.parse(text);
    const isLine = (/** @type {any} */ line) => Number.isInteger(line?.quantity) && typeof line.knobs === 'object' && line.knobs !== null;
    return String(order?.crestrail).startsWith('order/') && Array.isArray(order.lines) && order.lines.every(isLine) ? order : undefined;
  } catch {
    return undefined;
  }
}
