import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { money, today } from './format.js';
import { Job } from './job.js';
import { OrderList } from './order-list.js';
import { Table } from './table.js';
import { say, speech } from './words.js';

/** @import { OrderReport, PriceBreak, QuoteWish } from './messages.d.ts' */
/** @import { Column } from './table.js' */

/** Rows of the price table that are shown: each of the first six, then whole sets. */
const SHOWN = [1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24];

/** Papers that a quote is printed on, as the core knows them. */
const papers = /** @type {const} */ (['a4', 'letter']);

/** @typedef {{ chairs: number, designs: number, customer: string, name: string }} About what there is in the order */

/**
 * The order of several designs, and what a quote needs besides the chairs: how many, for whom, from when; and the price of one
 * by number.
 * @extends {Emitter<{ add: QuoteWish, names: { customer: string, name: string }, quote: QuoteWish, page: QuoteWish, order: QuoteWish, prices: QuoteWish }>}
 */
export class QuoteForm extends Emitter {
  #quantity = field('quantity', { type: 'number', min: '1', max: '999', step: '1', value: '1', inputmode: 'numeric', required: true });
  #called = field('called', { type: 'text', dir: 'auto', maxlength: '60', autocomplete: 'off' });
  #customer = field('customer', { type: 'text', dir: 'auto', maxlength: '60', autocomplete: 'off' });
  #number = field('number', { type: 'text', maxlength: '40', autocomplete: 'off', required: true });
  #date = field('date', { type: 'date', required: true });
  #paper = el('select', { id: 'quote-paper', class: 'quote-field' }, ...papers.map((paper) => el('option', { value: paper, text: say(`paper_${paper}`) })));
  #state = el('p', { class: 'list-note', role: 'status' });
  #says = el('p', { class: 'quote-about' });
  /** @type {Pick<OrderReport['bill'], 'currency' | 'minor_digits'>} */
  #money = { currency: 'EUR', minor_digits: 2 };
  #breaks = el('div', {});
  #breaksState = el('p', { class: 'list-note', role: 'status' });
  /** The writing of a quote, and the working out of the price by number. */
  job = new Job(say('quote'), (words) => this.tell(words));
  breaking = new Job(say('breaks'), (words) => setText(this.#breaksState, words));
  #details = el('details', { class: 'bill-group' }, el('summary', {}, el('span', { text: say('breaks') })), this.#breaksState, this.breaking.container, this.#breaks);
  order = new OrderList();
  #adding = el(
    'form',
    { class: 'quote-form adding', novalidate: true },
    this.#quantity.label,
    el('div', { class: 'export-buttons' }, el('button', { type: 'submit', class: 'plain-button', text: say('order_add') })),
  );
  #form = el(
    'form',
    { class: 'quote-form', novalidate: true },
    this.#called.label,
    this.#customer.label,
    this.#number.label,
    this.#date.label,
    el('label', { class: 'quote-label', for: 'quote-paper' }, el('span', { text: say('quote_paper') }), this.#paper),
    el(
      'div',
      { class: 'export-buttons' },
      el('button', { type: 'submit', class: 'strong-button', text: say('quote_make') }),
      this.#button('quote_page', 'page'),
      this.#button('order_save', 'order'),
    ),
    speech.rightToLeft && el('p', { class: 'list-note', text: say('quote_pdf_english') }),
  );
  container = el(
    'section',
    { class: 'quote' },
    el('h3', { text: say('quote') }),
    el('p', { class: 'list-note', text: say('quote_note') }),
    this.#adding,
    this.order.container,
    this.#says,
    this.#form,
    this.#state,
    this.job.container,
    this.#details,
  );
  /** @type {About | undefined} */
  #about;

  constructor() {
    super();
    this.#date.input.value = today();
    this.#number.input.value = `${new Date().getFullYear()}-1`;
    this.#sending(this.#form, 'quote');
    this.#sending(this.#adding, 'add');
    this.#quantity.input.addEventListener('input', () => this.#tellAbout());
    this.#called.label.hidden = true;
    for (const { input } of [this.#customer, this.#called]) input.addEventListener('change', () => this.emit('names', { customer: this.#customer.input.value.trim(), name: this.#called.input.value.trim() }));
    this.#details.addEventListener('toggle', () => this.#details.open && this.emit('prices', this.#wish()));
  }

  /** @param {{ quantity: number, customer: string }} order */
  fill({ quantity, customer }) {
    this.#quantity.input.value = String(quantity);
    this.#customer.input.value = customer;
  }

  /** What is quoted: the order, or where there is none the chair shown. @param {About} [about] */
  about(about) {
    if (about && about.customer !== this.#about?.customer) this.#customer.input.value = about.customer;
    if (about && about.name !== this.#about?.name) this.#called.input.value = about.name;
    this.#about = about;
    this.#called.label.hidden = !about;
    this.#tellAbout();
  }

  #tellAbout() {
    const { chairs, designs } = this.#about ?? { chairs: this.#wish().quantity, designs: 1 };
    const words = this.#about ? say('quote_of_order', { chairs: say('chairs_of', { count: chairs }), designs: say('designs_of', { count: designs }) }) : say('quote_of_chair', { count: chairs });
    setText(this.#says, words);
  }

  /** @param {string} words */
  tell(words) {
    setText(this.#state, words);
  }

  /** The tables of an earlier chair or order are put away. */
  close() {
    this.breaking.giveWay();
    setText(this.#breaksState, '');
    this.#details.open = false;
    this.#breaks.replaceChildren();
  }

  /** A table for each design. @param {OrderReport} report */
  update({ bill, breaks }) {
    this.#money = bill;
    const tables = breaks.map(({ name, rows }, at) => {
      // Two designs may be called the same; their lines in the order are numbered.
      const head = breaks.length > 1 && say('pair', { name: at + 1, value: name });
      const table = new Table(head || say('breaks'), this.#columns(), () => []);
      table.update(rows.filter(({ chairs }) => SHOWN.includes(chairs)));
      return el('section', {}, head && el('h4', { text: head }), table.container);
    });
    setText(this.#breaksState, '');
    this.#breaks.replaceChildren(...tables);
  }

  /** @param {string} why there are no prices */
  failBreaks(why) {
    setText(this.#breaksState, why);
    this.#breaks.replaceChildren();
  }

  /** @param {HTMLFormElement} form @param {'quote' | 'add'} what */
  #sending(form, what) {
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      this.#send(what);
    });
  }

  /** @param {'quote_page' | 'order_save'} word @param {'page' | 'order'} what */
  #button(word, what) {
    return el('button', { type: 'button', class: 'plain-button', text: say(word), onclick: () => this.#send(what) });
  }

  /** @param {'add' | 'quote' | 'page' | 'order'} what */
  #send(what) {
    const dated = what === 'quote' || what === 'page';
    const counted = what === 'add' || !this.#about;
    const wrong = [...(counted ? [this.#quantity] : []), ...(dated ? [this.#number, this.#date] : [])].find(({ input }) => !input.checkValidity());
    if (!wrong) return this.emit(what, this.#wish());
    wrong.input.focus();
    this.tell(say('quote_wrong', { field: wrong.name, why: wrong.input.validationMessage }));
  }

  /** @returns {QuoteWish} */
  #wish() {
    const of = (/** @type {{ input: HTMLInputElement }} */ { input }) => input.value.trim();
    const quantity = Math.trunc(Number(of(this.#quantity))) || 1;
    return { quantity, customer: of(this.#customer), number: of(this.#number), date: of(this.#date), paper: this.#paper.value };
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

/** @param {'quantity' | 'called' | 'customer' | 'number' | 'date'} key @param {Record<string, unknown>} traits */
function field(key, traits) {
  const name = say(`quote_${key}`);
  const input = el('input', { id: `quote-${key}`, class: 'quote-field', ...traits });
  return { name, input, label: el('label', { class: 'quote-label', for: `quote-${key}` }, el('span', { text: name }), input) };
}
