import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Design } from './messages.d.ts' */
/** @import { Notices } from './notices.js' */
/** @import { OrderBook } from './order-book.js' */
/** @import { OrderWork } from './order-work.js' */
/** @import { Price } from './price.js' */
/** @import { Session } from './session.js' */

/**
 * @typedef {object} Tools
 * @property {Bridge} bridge
 * @property {Session} session
 * @property {Notices} notices
 * @property {Price} price
 * @property {OrderBook} book
 * @property {OrderWork} ordering
 * @property {(design: Design, name?: string) => Promise<void>} show shows a whole design at once
 * @property {(text: string) => void} checkIn holds what a customer sent against the book
 */

/** Opens, changes and empties the order; whatever is taken from the screen or from the order can be brought back. */
export class OrderDesk {
  #tools;

  /** @param {Tools} tools */
  constructor(tools) {
    this.#tools = tools;
    const { order } = tools.price.quote;
    order.on('open', (at) => this.#openLine(at));
    order.on('remove', (at) => this.#remove(at));
    order.on('clear', () => this.#clear());
  }

  /** Takes the place of the order that there is. @param {string} text of an order, or of a quote @param {(why: string) => void} fail */
  async open(text, fail) {
    const { bridge, book, price, ordering, show, checkIn } = this.#tools;
    const answer = await bridge.ask('readOrder', text);
    if (answer.error) return fail(answer.error.why);
    const { order } = answer.ok;
    const [first] = order.lines;
    if (!first) return;
    if (order.lines.some(({ told }) => told)) return checkIn(text);
    await book.bring(bridge);
    book.refresh();
    const back = this.#wayBack();
    price.quote.fill({ quantity: first.quantity, customer: order.customer ?? '' });
    book.replace(order, 0);
    await show(first.knobs, first.name || '');
    const name = order.name || ordering.nameOf(first);
    const [chairs, designs] = [say('chairs_of', { count: book.chairs }), say('designs_of', { count: book.lines.length })];
    this.#tell('open', say('order_opened', { name, chairs, designs }), back);
  }

  /** Puts chair and order back as they are now. */
  #wayBack() {
    const { session, show } = this.#tools;
    const { design, name } = session;
    const putBack = this.#putBack();
    return () => {
      putBack();
      show(design, name);
    };
  }

  /**
   * Puts the order back as it is now. What another tab changed since is not lost without a word: it is told, with a way back.
   * @returns {() => void}
   */
  #putBack() {
    const { book } = this.#tools;
    const { order, shown, revision } = book;
    return () => {
      book.refresh();
      const undo = this.#putBack();
      const isOver = revision !== book.revision;
      book.replace(order, shown);
      if (isOver) this.#tell('order', say('order_elsewhere_over'), undo);
    };
  }

  /** Shows a chair of the order; what stood on screen comes back with undo. @param {number} at */
  async #openLine(at) {
    const { session, book, ordering, show } = this.#tools;
    const line = book.lines[at];
    if (!line) return;
    const { design, name } = session;
    const { shown, revision } = book;
    const back = () => {
      if (revision === book.revision) book.shown = shown;
      show(design, name);
    };
    book.shown = at;
    await show(line.knobs, line.name ?? '');
    this.#tell('open', say('order_chair_opened', { name: ordering.nameOf(line) }), back);
  }

  /** @param {number} at */
  #remove(at) {
    const { book, ordering } = this.#tools;
    const place = book.still(at);
    const line = place === undefined ? undefined : book.lines[place];
    if (place === undefined || !line) return;
    const back = this.#putBack();
    book.remove(place);
    this.#tell('order', say('order_removed', { name: ordering.nameOf(line) }), back);
  }

  #clear() {
    const { book } = this.#tools;
    book.refresh();
    const back = this.#putBack();
    book.empty();
    this.#tell('order', say('order_cleared'), back);
  }

  /** @param {string} key of the notice @param {string} words @param {() => void} act brings back what was */
  #tell(key, words, act) {
    this.#tools.notices.tell(key, words, { action: { words: say('undo'), act } });
  }
}
