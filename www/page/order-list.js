import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { money } from './format.js';
import { Job } from './job.js';
import { MOST_CHAIRS } from './order-book.js';
import { say } from './words.js';

/** @import { OrderReport, Refusal } from './messages.d.ts' */
/** @import { Line } from './order-book.js' */

/** What is priced sooner shows no progress, ms. */
const PATIENCE = 1000;

/** How the chair on screen stands to a line of the order. @typedef {'apart' | 'same' | 'changed'} Stands */

/**
 * @typedef {object} Row
 * @property {HTMLLIElement} item
 * @property {HTMLElement} name
 * @property {HTMLInputElement} count
 * @property {HTMLElement} price
 * @property {HTMLElement} amount
 * @property {HTMLElement} mark
 * @property {HTMLButtonElement} put
 * @property {HTMLElement} why
 */

/**
 * The order's designs with their quantities and prices, what is added to them, and the total.
 * @extends {Emitter<{ count: { at: number, quantity: number }, open: number, remove: number, put: number, clear: null }>}
 */
export class OrderList extends Emitter {
  /** @type {Row[]} */
  #rows = [];
  #list = el('ol', { class: 'order-lines', 'aria-label': say('order_lines') });
  #sums = el('dl', { class: 'order-sums' });
  #ready = el('p', { class: 'list-note' });
  #state = el('p', { class: 'list-note order-state', role: 'status' });
  /** The pricing, which begins by itself. */
  job = new Job(say('order_lines'), (words) => this.tell(words), PATIENCE);
  #clear = el('button', { type: 'button', class: 'plain-button', text: say('order_clear'), onclick: () => this.emit('clear', null) });
  container = el('div', { class: 'order' }, this.#list, this.#sums, this.#ready, this.#state, this.job.container, el('div', { class: 'export-buttons' }, this.#clear));

  constructor() {
    super();
    this.container.hidden = true;
  }

  /**
   * @param {Line[]} lines @param {(line: Line) => string} nameOf @param {(at: number) => Stands} stands
   * @param {boolean} priced whether the prices shown are still those of these lines
   */
  update(lines, nameOf, stands, priced) {
    this.container.hidden = lines.length === 0;
    while (this.#rows.length > lines.length) this.#rows.pop()?.item.remove();
    while (this.#rows.length < lines.length) this.#add();
    lines.forEach((line, at) => this.#fill(at, line, nameOf(line), stands(at)));
    this.container.classList.toggle('stale', !priced);
  }

  /** @param {OrderReport} report */
  price({ bill, rows, lead }) {
    this.container.classList.remove('stale');
    rows.forEach(({ price_minor: price, amount_minor: amount }, at) => {
      const row = this.#rows[at];
      if (!row) return;
      setText(row.price, say('order_each', { price: money(price, bill) }));
      setText(row.amount, money(amount, bill));
      this.#complain(row, '');
    });
    const lines = bill.lines.filter(({ id }) => !id.startsWith('chair.')).map(({ what, amount_minor: minor }) => [what, minor, false]);
    const deposit = bill.deposit_minor === undefined ? [] : [[say('order_deposit'), bill.deposit_minor, false]];
    const rest = /** @type {[string, number, boolean][]} */ ([...lines, [say('bill_total'), bill.total_minor, true], ...deposit]);
    this.#sums.replaceChildren(
      ...rest.flatMap(([what, minor, strong]) => [el('dt', { text: what, class: strong && 'order-total' }), el('dd', { text: money(minor, bill), class: strong && 'order-total' })]),
    );
    setText(this.#ready, lead ? say('work_lead', { count: lead.working_days, weeks: lead.weeks }) : '');
    setText(this.#state, '');
  }

  /** Why there is no price: at the line that it is about, if it is about one. @param {Refusal} refusal */
  refuse({ where, why }) {
    this.container.classList.remove('stale');
    const at = Number(/^lines\[(\d+)\]/.exec(where)?.[1] ?? -1);
    this.#rows.forEach((row, i) => {
      setText(row.price, '');
      setText(row.amount, '–');
      this.#complain(row, i === at ? why : '');
    });
    this.#sums.replaceChildren();
    setText(this.#ready, '');
    setText(this.#state, this.#rows[at] ? say('order_unpriced', { number: at + 1 }) : why);
  }

  /** @param {string} words */
  tell(words) {
    setText(this.#state, words);
  }

  #add() {
    const at = this.#rows.length;
    const id = `order-count-${at + 1}`;
    const count = el('input', { id, class: 'quote-field', type: 'number', min: '1', max: String(MOST_CHAIRS), step: '1', inputmode: 'numeric', required: true });
    const name = el('bdi', { class: 'order-name' });
    const [mark, price, amount] = [span('order-mark'), span('order-each'), span('order-amount figures')];
    const why = el('p', { class: 'order-why', role: 'alert', hidden: true });
    const act = (/** @type {'open' | 'remove' | 'put'} */ what) =>
      el('button', { type: 'button', class: 'plain-button', text: say(`order_${what}`), onclick: () => this.emit(what, at) });
    const put = act('put');
    const item = el(
      'li',
      { class: 'order-line' },
      el('span', { class: 'order-number', text: String(at + 1), 'aria-hidden': 'true' }),
      el('div', { class: 'order-title' }, name, mark),
      el('label', { class: 'order-count', for: id }, el('span', { class: 'unseen', text: '' }), count, el('span', { text: '×', 'aria-hidden': 'true' })),
      el('div', { class: 'order-money' }, amount, price),
      el('div', { class: 'order-acts' }, put, act('open'), act('remove')),
      why,
    );
    const row = { item, name, count, price, amount, mark, put, why };
    count.addEventListener('change', () => this.#counted(row, at));
    this.#rows.push(row);
    this.#list.append(item);
  }

  /** @param {number} at @param {Line} line @param {string} name @param {Stands} stands */
  #fill(at, { quantity }, name, stands) {
    const row = this.#rows[at];
    if (!row) return;
    setText(row.name, name);
    if (document.activeElement !== row.count || row.count.checkValidity()) row.count.value = String(quantity);
    setText(/** @type {Element} */ (row.item.querySelector('.order-count > .unseen')), say('order_count_of', { name }));
    setText(row.mark, stands === 'apart' ? '' : say(`order_is_${stands}`));
    row.put.hidden = stands !== 'changed';
    for (const button of row.item.querySelectorAll('button')) button.setAttribute('aria-label', say('order_act', { act: button.textContent ?? '', name, number: at + 1 }));
    row.item.classList.toggle('shown', stands !== 'apart');
  }

  /** @param {Row} row @param {number} at */
  #counted(row, at) {
    const { count } = row;
    if (!count.checkValidity()) return this.#complain(row, say('order_count_wrong', { why: count.validationMessage, most: MOST_CHAIRS }));
    this.#complain(row, '');
    this.emit('count', { at, quantity: Number(count.value) });
  }

  /** @param {Row} row @param {string} why */
  #complain({ why: place, item }, why) {
    setText(place, why);
    place.hidden = why === '';
    item.classList.toggle('wrong', why !== '');
  }
}

/** @param {string} kind */
function span(kind) {
  return el('span', { class: kind });
}
