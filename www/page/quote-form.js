import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { money, today } from './format.js';
import { Table } from './table.js';
import { say } from './words.js';

/** @import { OrderReport, PriceBreak, QuoteWish } from './messages.d.ts' */
/** @import { Column } from './table.js' */

/** Rows of the price table that are shown: each of the first six, then whole sets. */
const SHOWN = [1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24];

/**
 * How many, for whom, from when: what a quote needs besides the chair; and the price of one by number.
 * @extends {Emitter<{ quote: QuoteWish, order: QuoteWish, prices: QuoteWish }>}
 */
export class QuoteForm extends Emitter {
  #quantity = field('quantity', { type: 'number', min: '1', max: '999', step: '1', value: '1', inputmode: 'numeric', required: true });
  #customer = field('customer', { type: 'text', maxlength: '60', autocomplete: 'off' });
  #number = field('number', { type: 'text', maxlength: '40', autocomplete: 'off', required: true });
  #date = field('date', { type: 'date', required: true });
  #state = el('p', { class: 'list-note', role: 'status' });
  /** @type {Pick<OrderReport['bill'], 'currency' | 'minor_digits'>} */
  #money = { currency: 'EUR', minor_digits: 2 };
  #breaks = new Table(say('breaks'), this.#columns(), () => []);
  #details = el('details', { class: 'bill-group' }, el('summary', {}, el('span', { text: say('breaks') })), this.#breaks.container);
  #form = el(
    'form',
    { class: 'quote-form', novalidate: true },
    this.#quantity.label,
    this.#customer.label,
    this.#number.label,
    this.#date.label,
    el(
      'div',
      { class: 'export-buttons' },
      el('button', { type: 'submit', class: 'strong-button', text: say('quote_make') }),
      el('button', { type: 'button', class: 'plain-button', text: say('order_save'), onclick: () => this.#send('order') }),
    ),
  );
  container = el('section', { class: 'quote' }, el('h3', { text: say('quote') }), el('p', { class: 'list-note', text: say('quote_note') }), this.#form, this.#state, this.#details);

  constructor() {
    super();
    this.#date.input.value = today();
    this.#number.input.value = `${new Date().getFullYear()}-1`;
    this.#form.addEventListener('submit', (event) => {
      event.preventDefault();
      this.#send('quote');
    });
    this.#details.addEventListener('toggle', () => this.#details.open && this.emit('prices', this.#wish()));
  }

  /** @param {{ quantity: number, customer: string }} order */
  fill({ quantity, customer }) {
    this.#quantity.input.value = String(quantity);
    this.#customer.input.value = customer;
  }

  /** @param {string} words */
  tell(words) {
    setText(this.#state, words);
  }

  /** The table of an earlier chair is put away. */
  close() {
    this.#details.open = false;
  }

  /** @param {OrderReport} report */
  update({ bill, breaks }) {
    this.#money = bill;
    this.#breaks.update((breaks[0]?.rows ?? []).filter(({ chairs }) => SHOWN.includes(chairs)));
  }

  /** @param {'quote' | 'order'} what */
  #send(what) {
    const wrong = [this.#quantity, ...(what === 'quote' ? [this.#number, this.#date] : [])].find(({ input }) => !input.checkValidity());
    if (!wrong) return this.emit(what, this.#wish());
    wrong.input.focus();
    this.tell(say('quote_wrong', { field: wrong.name, why: wrong.input.validationMessage }));
  }

  /** @returns {QuoteWish} */
  #wish() {
    return { quantity: Math.trunc(Number(this.#quantity.input.value)) || 1, customer: this.#customer.input.value.trim(), number: this.#number.input.value.trim(), date: this.#date.input.value };
  }

  /** @returns {Column<PriceBreak>[]} */
  #columns() {
    return [
      { key: 'chairs', head: say('breaks_chairs'), figures: true, text: ({ chairs }) => String(chairs) },
      { key: 'each', head: say('breaks_each'), figures: true, text: ({ price_minor: price }) => money(price, this.#money) },
      { key: 'amount', head: say('breaks_total'), figures: true, text: ({ total_minor: total }) => money(total, this.#money) },
      { key: 'days', head: say('breaks_days'), figures: true, text: ({ working_days: days }) => String(days ?? '–') },
    ];
  }
}

/** @param {'quantity' | 'customer' | 'number' | 'date'} key @param {Record<string, unknown>} traits */
function field(key, traits) {
  const name = say(`quote_${key}`);
  const input = el('input', { id: `quote-${key}`, class: 'quote-field', ...traits });
  return { name, input, label: el('label', { class: 'quote-label', for: `quote-${key}` }, el('span', { text: name }), input) };
}
