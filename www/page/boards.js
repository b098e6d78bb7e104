import { el } from './dom.js';
import { fixed, lengthFigure, lengthUnit, money, wholeLength } from './format.js';
import { lengths } from './length.js';
import { Table } from './table.js';
import { listed, say } from './words.js';

/** @import { BoardsNeeded, Report, Stack, TimberLine } from './messages.d.ts' */
/** @import { Column } from './table.js' */

/** @typedef {{ timber: string, thickness: string, from: string, stack: Stack, used: number, parts: string[] }} BoardRow */

/** @type {Column<TimberLine>[]} */
const inChair = [
  { key: 'species', head: say('timber'), text: ({ species }) => species },
  { key: 'thickness', head: say('timber_thickness'), unit: lengthUnit, figures: true, text: (line) => lengthFigure(line.thickness_mm), note: yardName },
  { key: 'net', head: say('timber_net'), unit: say('unit_m3'), figures: true, text: (line) => volume(line.volume_m3) },
  { key: 'rough', head: say('timber_rough'), unit: say('unit_m3'), figures: true, text: (line) => volume(line.rough_m3) },
];

/** @type {Column<TimberLine>[]} */
const bought = [
  { key: 'bought', head: say('timber_bought'), unit: say('unit_m3'), figures: true, text: (line) => volume(line.bought_m3) },
  { key: 'board-feet', head: say('board_feet'), unit: say('unit_board_feet'), figures: true, text: (line) => fixed(line.board_feet ?? 0, 2) },
];

/** Of a timber in the chair: four decimals, which is a tenth of a litre. @param {number} [m3] */
function volume(m3 = 0) {
  return fixed(m3, 4);
}

/** The yard's own name of a thickness, where that is not just its millimetres. @param {TimberLine} line */
function yardName({ thickness, thickness_mm: mm }) {
  return thickness && Number.parseFloat(thickness) !== mm ? thickness : '';
}

/**
 * What timber is in the chair, and what must be had for it: the boards where the workshop has a stock list, else a
 * volume by its yield.
 */
export class Boards {
  #money = { currency: 'EUR', minor_digits: 2 };
  #unit = lengths.unit;
  #planned = new Table(say('timber_in'), inChair, ({ parts = [] }) => parts);
  #byYield = new Table(say('timber_buy'), [...inChair, ...bought], ({ parts = [] }) => parts);
  #boards = new Table(say('boards_take'), this.#columns(), ({ parts }) => parts);
  #note = el('p', { class: 'list-note', text: say('boards_note') });
  container = el(
    'section',
    { class: 'boards' },
    el('h3', { text: say('timber_in') }),
    this.#planned.container,
    this.#byYield.container,
    this.#boards.container,
    this.#note,
  );

  /** @param {Report} report */
  update({ bill, timber, boards = [] }) {
    if (bill) this.#money = bill;
    const planned = boards.length > 0;
    this.#planned.container.hidden = !planned;
    this.#byYield.container.hidden = planned;
    this.#boards.container.hidden = !planned;
    this.#note.hidden = !planned;
    (planned ? this.#planned : this.#byYield).update(timber.lines);
    this.#boards.update(boards.flatMap(rowsOf));
    if (this.#unit !== lengths.unit) for (const table of [this.#planned, this.#byYield, this.#boards]) table.renew();
    this.#unit = lengths.unit;
  }

  /** @returns {Column<BoardRow>[]} */
  #columns() {
    return [
      { key: 'species', head: say('timber'), text: ({ timber, thickness }) => listed([timber, thickness]) },
      { key: 'from', head: say('boards_from'), text: ({ from }) => from },
      { key: 'count', head: say('boards_count'), figures: true, text: ({ stack }) => String(stack.count) },
      { key: 'size', head: say('boards_size'), unit: lengthUnit, figures: true, text: ({ stack }) => sizeOf(stack) },
      { key: 'each', head: say('boards_each'), figures: true, text: ({ stack }) => (stack.each_minor > 0 ? money(stack.each_minor, this.#money) : '–') },
    ];
  }
}

/** @param {BoardsNeeded} needed @returns {BoardRow[]} */
function rowsOf({ species, thickness, thickness_mm: mm, parts, buy, rack, yield: used }) {
  const row = (/** @type {Stack} */ stack, /** @type {string} */ from) => ({ timber: species, thickness: thickness ?? `${lengthFigure(mm)} ${lengthUnit()}`, from, stack, used, parts });
  return [...rack.map((stack) => row(stack, say('boards_rack'))), ...buy.map((stack) => row(stack, say('boards_yard')))];
}

/** A board as it is bought; nobody works to its size. @param {Stack} stack */
export function sizeOf({ length, width }) {
  return `${wholeLength(length)} × ${wholeLength(width)}`;
}
