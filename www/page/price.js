import { el, setText } from './dom.js';
import { fixed, money, number } from './format.js';
import { Table } from './table.js';
import { say } from './words.js';

/** @import { Bill, BillLine, Report, TimberLine } from './messages.d.ts' */
/** @import { Column } from './table.js' */

/** @type {Column<TimberLine>[]} */
const timberColumns = [
  { key: 'species', head: say('timber'), text: ({ species }) => species },
  { key: 'thickness', head: say('timber_thickness'), unit: say('unit_mm'), figures: true, text: (line) => number(line.thickness_mm), note: yardName },
  { key: 'net', head: say('timber_net'), unit: 'm³', figures: true, text: (line) => fixed(line.volume_m3, 4) },
  { key: 'rough', head: say('timber_rough'), unit: 'm³', figures: true, text: (line) => fixed(line.rough_m3, 4) },
  { key: 'bought', head: say('timber_bought'), unit: 'm³', figures: true, text: (line) => fixed(line.bought_m3, 4) },
  { key: 'board-feet', head: say('board_feet'), unit: 'bd ft', figures: true, text: (line) => fixed(line.board_feet, 2) },
];

/** The yard's own name of a thickness, where that is not just its millimetres. @param {TimberLine} line */
function yardName({ thickness, thickness_mm: mm }) {
  return thickness && Number.parseFloat(thickness) !== mm ? thickness : '';
}

/** The price: each line with where its quantity comes from, the total, and the timber to buy. */
export class Price {
  /** @type {Pick<Bill, 'currency' | 'minor_digits'>} */
  #money = { currency: 'EUR', minor_digits: 2 };
  #total = el('span', {});
  #missing = el('p', { class: 'list-note' });
  table = new Table(say('bill'), this.#columns(), ({ parts }) => parts);
  #timber = new Table(say('timber_buy'), timberColumns, ({ parts = [] }) => parts);
  container = el(
    'section',
    {},
    this.table.container,
    el('p', { class: 'list-total total' }, el('span', { text: say('bill_total') }), this.#total),
    this.#missing,
    el('p', { class: 'list-note', text: say('price_note') }),
    el('h3', { text: say('timber_buy') }),
    this.#timber.container,
  );

  /** @param {Report} report */
  update({ bill, no_bill: refusal, timber }) {
    if (bill) this.#money = bill;
    this.table.update(bill?.lines ?? []);
    setText(this.#total, bill ? money(bill.total_minor, bill) : say('no_price'));
    setText(this.#missing, refusal?.why ?? '');
    this.#timber.update(timber.lines);
  }

  /** @returns {Column<BillLine>[]} */
  #columns() {
    return [
      { key: 'what', head: say('bill_what'), text: ({ what }) => what, note: ({ why }) => why },
      { key: 'letters', head: say('parts'), text: () => '', letters: ({ parts }) => parts },
      { key: 'bill-quantity', head: say('bill_quantity'), figures: true, text: (line) => `${number(line.quantity, 4)} ${line.unit}` },
      { key: 'rate', head: say('bill_rate'), figures: true, text: (line) => say(line.unit === 'pieces' ? 'bill_each' : 'bill_per', { rate: money(line.rate_minor, this.#money), unit: line.unit }) },
      { key: 'amount', head: say('bill_amount'), figures: true, text: (line) => money(line.amount_minor, this.#money) },
    ];
  }
}
