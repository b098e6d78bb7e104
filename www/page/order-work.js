import { beside } from './beside.js';
import { debounce } from './dom.js';
import { orderOf } from './orders.js';
import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Design, Order } from './messages.d.ts' */
/** @import { Line, Named, OrderBook } from './order-book.js' */
/** @import { Price } from './price.js' */
/** @import { SawingWish } from './sawing.js' */
/** @import { Session } from './session.js' */

/** How long quantities rest before the order is priced, in milliseconds. */
const REST = 200;

/**
 * Puts chairs into the order, and prices it in a worker of its own, so that the knobs stay quick. The answer about an order
 * that has changed since is let go.
 */
export class OrderWork {
  #session;
  #price;
  #book;
  #labelOf;
  #bridge;
  #priceSoon = debounce(REST, () => this.#priced());
  /** The order and the workshop of the prices that are shown. @type {{ order?: Order, shop?: unknown }} */
  #told = {};
  /** What was shown last: whatever is worked out of it is out of date when it changes. @type {{ order?: Order, shop?: unknown, built?: Design }} */
  #seen = {};

  /**
   * @param {Bridge} bridge @param {Session} session @param {Price} price @param {OrderBook} book
   * @param {(family: string) => string} labelOf what a kind of chair is called
   */
  constructor(bridge, session, price, book, labelOf) {
    this.#bridge = bridge;
    this.#session = session;
    this.#price = price;
    this.#book = book;
    this.#labelOf = labelOf;
    book.on('change', () => this.show());
    price.quote.on('add', ({ quantity, customer }) => this.#add(quantity, customer));
    price.quote.on('names', (names) => book.call(book.bare ? { customer: names.customer } : names));
    price.quote.order.on('count', ({ at, quantity }) => book.count(at, quantity));
    price.quote.order.on('put', (at) => book.put(at, this.#here()));
  }

  /** What is sawn. @param {SawingWish} wish @returns {Order} */
  sawn({ chairs, whole }) {
    return whole ? this.#book.order : orderOf(this.#session, { quantity: chairs, customer: '' });
  }

  /** What a quote, or a file of the order is made from: the order, or so many of the chair shown where it is bare. @param {{ quantity: number, customer: string }} wish @returns {Order} */
  wanted(wish) {
    return this.#book.bare ? orderOf(this.#session, wish) : { ...this.#book.order, customer: wish.customer };
  }

  /** What a line is called. @param {Line} line */
  nameOf = ({ name, knobs }) => name || this.#labelOf(String(knobs.family ?? 'side_chair'));

  /** Everything about the order, if the list of prices is in view; what is kept of it is read when it first comes into view. */
  async show() {
    const { quote, sawing, container } = this.#price;
    if (container.hidden) return;
    const book = this.#book;
    await book.bring(this.#bridge);
    this.#putAway();
    const priced = this.#told.order === book.order && this.#told.shop === this.#session.shop;
    const about = book.bare ? undefined : { chairs: book.chairs, designs: book.lines.length, customer: book.order.customer ?? '', name: book.order.name ?? '' };
    sawing.offerOrder(about);
    quote.about(about);
    quote.order.update(book.lines, this.nameOf, (at) => this.#stands(at), priced);
    if (book.bare) this.#price.quote.order.job.giveWay();
    else if (!priced) this.#priceSoon();
  }

  /** Puts away what was worked out of an earlier order, workshop or chair. */
  #putAway() {
    const { order, bare } = this.#book;
    const { shop, built } = this.#session;
    const [before, now] = [this.#seen, { order, shop, built }];
    this.#seen = now;
    const changed = before.order !== now.order || before.shop !== now.shop;
    if (changed) this.#price.sawing.stale(true);
    if (changed || (bare && before.built !== now.built)) this.#price.quote.close();
  }

  /** Tells later whether what a quote is made from is still that of now. @returns {() => boolean} */
  watch() {
    const { order, bare } = this.#book;
    const { shop } = this.#session;
    const isShown = this.#session.watch();
    return () => order === this.#book.order && shop === this.#session.shop && (!bare || isShown());
  }

  #here() {
    const { built, name } = this.#session;
    return { design: built, name };
  }

  /** @param {number} quantity @param {string} customer */
  async #add(quantity, customer) {
    const book = this.#book;
    await book.bring(this.#bridge);
    book.refresh();
    if (book.full) return this.#price.quote.tell(say('order_full', { most: book.lines.length }));
    if (customer) book.call({ customer });
    const name = this.nameOf({ name: this.#session.name, quantity, knobs: this.#session.built });
    book.add(this.#here(), quantity);
    this.#price.quote.tell(say('order_added', { count: quantity, name }));
  }

  /** @param {number} at @returns {'apart' | 'same' | 'changed'} */
  #stands(at) {
    const line = this.#book.lines[at];
    if (!line || at !== this.#book.shown) return 'apart';
    return same({ design: line.knobs, name: line.name ?? '' }, this.#here()) ? 'same' : 'changed';
  }

  async #priced() {
    const { order } = this.#book;
    const { shop } = this.#session;
    const list = this.#price.quote.order;
    if (this.#book.bare) return;
    const answer = await list.job.run('', ({ signal }) => beside(signal, (bridge) => bridge.ask('order', { order, shop, want: [] })));
    if (!answer) return;
    this.#told = { order, shop };
    if (answer.error) list.refuse(answer.error);
    else list.price(answer.ok);
  }
}

/** Whether two designs have the same name and the same value of each knob. @param {Named} a @param {Named} b */
export function same(a, b) {
  const names = new Set([...Object.keys(a.design), ...Object.keys(b.design)]);
  return a.name === b.name && [...names].every((name) => a.design[name] === b.design[name]);
}
