import { Boards } from './boards.js';
import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { money, number } from './format.js';
import { Moves } from './moves.js';
import { QuoteForm } from './quote-form.js';
import { Sawing } from './sawing.js';
import { Table } from './table.js';
import { inUnit } from './told-lengths.js';
import { say } from './words.js';
import { Work } from './work.js';

/** @import { Bill, BillLine, BillSum, Report } from './messages.d.ts' */
/** @import { Column } from './table.js' */

/**
 * The price: groups of lines that open, each line with where its quantity comes from; then the work, what moves the
 * price, the quote, and the timber with how to saw it.
 * @extends {Emitter<{ hover: string[], tap: string, pick: string[] }>}
 */
export class Price extends Emitter {
  /** @type {Pick<Bill, 'currency' | 'minor_digits'>} */
  #money = { currency: 'EUR', minor_digits: 2 };
  #total = el('span', {});
  #totalSays = el('span', { text: say('bill_total') });
  #deposit = el('p', { class: 'list-note' });
  #missing = el('p', { class: 'list-note' });
  #groups = el('div', { class: 'bill-groups' });
  /** @type {Map<string, { details: HTMLDetailsElement, sum: HTMLElement, table: Table<BillLine>, lines: BillLine[] }>} */
  #open = new Map();
  work = new Work();
  moves = new Moves();
  quote = new QuoteForm();
  sawing = new Sawing();
  #boards = new Boards();
  container = el(
    'section',
    {},
    this.#groups,
    el('p', { class: 'list-total total' }, this.#totalSays, this.#total),
    this.#deposit,
    this.#missing,
    el('p', { class: 'list-note', text: say('price_note') }),
    this.quote.container,
    this.work.container,
    this.moves.container,
    this.#boards.container,
    this.sawing.container,
  );

  constructor() {
    super();
    this.#hear(this.work.table);
  }

  /** @param {Report} report */
  update(report) {
    const { bill, no_bill: refusal, labour } = report;
    if (bill) this.#money = bill;
    this.#showGroups(bill);
    const taxed = bill?.sums.some(({ group }) => group === 'tax');
    setText(this.#totalSays, say(taxed ? 'bill_total_taxed' : 'bill_total'));
    setText(this.#total, bill ? money(bill.total_minor, bill) : say('no_price'));
    const deposit = bill?.deposit_minor;
    setText(this.#deposit, bill && deposit !== undefined ? say('bill_deposit', { amount: money(deposit, bill) }) : '');
    setText(this.#missing, [refusal?.why, ...(bill?.missing ?? [])].filter(Boolean).join(' '));
    this.work.update(labour);
    this.moves.stale();
    this.sawing.stale(false);
    this.#boards.update(report);
  }

  /** @param {ReadonlySet<string>} lit */
  light(lit) {
    for (const { table } of this.#open.values()) table.light(lit);
    this.work.table.light(lit);
  }

  /** @param {Bill | null} bill */
  #showGroups(bill) {
    const sums = bill?.sums ?? [];
    for (const [group, { details }] of this.#open) details.hidden = !sums.some((sum) => sum.group === group);
    for (const sum of sums) {
      const shown = this.#open.get(sum.group) ?? this.#add(sum);
      setText(shown.sum, money(sum.amount_minor, this.#money));
      shown.lines = (bill?.lines ?? []).filter(({ group }) => group === sum.group);
      // A group's lines are filled in while it is open.
      if (shown.details.open) shown.table.update(shown.lines);
    }
    // A group may have come later than those that stand below it.
    sums.forEach(({ group }, i) => {
      const details = this.#open.get(group)?.details;
      if (details && this.#groups.children[i] !== details) this.#groups.insertBefore(details, this.#groups.children[i] ?? null);
    });
  }

  /** @param {BillSum} sum */
  #add({ group, what }) {
    const traced = group === 'material' || group === 'labour';
    const table = new Table(say('bill_group', { what }), this.#columns(traced), ({ parts }) => parts);
    const sum = el('span', { class: 'figures' });
    const details = el('details', { class: 'bill-group' }, el('summary', {}, el('span', { text: what }), sum), table.container);
    const entry = { details, sum, table, lines: /** @type {BillLine[]} */ ([]) };
    const fill = () => table.update(entry.lines);
    // Before it opens, so that it opens full; and however else it was opened.
    details.firstElementChild?.addEventListener('click', fill);
    details.addEventListener('toggle', () => details.open && fill());
    this.#open.set(group, entry);
    this.#groups.append(details);
    this.#hear(table);
    return entry;
  }

  /** @param {Table<any>} table */
  #hear(table) {
    table.on('hover', (letters) => this.emit('hover', letters));
    table.on('tap', (letter) => this.emit('tap', letter));
    table.on('pick', (letters) => this.emit('pick', letters));
  }

  /** @param {boolean} traced whether its lines are about some of the parts, not the whole chair @returns {Column<BillLine>[]} */
  #columns(traced) {
    /** @type {Column<BillLine>[]} */
    const letters = traced ? [{ key: 'letters', head: say('parts'), text: () => '', letters: ({ parts }) => parts }] : [];
    return [
      { key: 'what', head: say('bill_what'), text: ({ what }) => what, note: ({ why }) => inUnit(why) },
      ...letters,
      { key: 'bill-quantity', head: say('bill_quantity'), figures: true, text: quantityOf },
      { key: 'rate', head: say('bill_rate'), figures: true, text: (line) => this.#rate(line) },
      { key: 'amount', head: say('bill_amount'), figures: true, text: (line) => money(line.amount_minor, this.#money) },
    ];
  }

  /** @param {BillLine} line */
  #rate({ unit, rate_minor: minor }) {
    const rate = money(minor, this.#money);
    if (unit === 'share') return say('bill_of', { rate });
    return say(unit === 'pieces' ? 'bill_each' : 'bill_per', { rate, unit });
  }
}

/** @param {BillLine} line */
function quantityOf({ quantity, unit }) {
  return unit === 'share' ? `${number(quantity * 100, 4)} %` : `${number(quantity, 4)} ${unit}`;
}
