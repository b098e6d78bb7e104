import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { say } from './words.js';

/**
 * @template Row
 * @typedef {object} Column
 * @property {string} key names the column for the style sheet
 * @property {string} head
 * @property {string | (() => string)} [unit] stands in the head; asked for again by `renew`
 * @property {string} [group] columns next to each other with the same group share a head above
 * @property {boolean} [figures] aligned to the right in tabular figures
 * @property {(row: Row) => string} text
 * @property {(row: Row) => string} [note] a smaller line below
 * @property {(row: Row) => string[]} [letters] instead of text: buttons that light these parts
 */

/**
 * A table kept in step with its rows: cells change only where their text does.
 * On a narrow screen the style sheet lays each row out as a small block, for which every cell
 * carries its head in `data-head`; the roles keep it a table for screen readers.
 * @template Row
 * @extends {Emitter<{ hover: string[], tap: string, pick: string[] }>}
 */
export class Table extends Emitter {
  #columns;
  #lettersOf;
  #body = el('tbody', { role: 'rowgroup' });
  /** @type {{ line: HTMLTableRowElement, cells: HTMLTableCellElement[], letters: string[] }[]} */
  #lines = [];

  /**
   * @param {string} name caption, and name of the region that may scroll
   * @param {Column<Row>[]} columns
   * @param {(row: Row) => string[]} lettersOf which parts a row is about
   */
  constructor(name, columns, lettersOf) {
    super();
    this.#columns = columns;
    this.#lettersOf = lettersOf;
    const table = el('table', { role: 'table' }, el('caption', { class: 'unseen', text: name }), heads(columns), this.#body);
    this.container = el('section', { class: 'table-region', 'aria-label': say('table_region', { name }), tabindex: '0' }, table);
  }

  /** @param {Row[]} rows */
  update(rows) {
    while (this.#lines.length > rows.length) this.#lines.pop()?.line.remove();
    while (this.#lines.length < rows.length) this.#add();
    rows.forEach((row, i) => this.#fill(i, row));
  }

  /** Units are written anew. */
  renew() {
    const heads = this.container.querySelectorAll('.head-unit');
    this.#columns.filter(({ unit }) => unit).forEach((column) => {
      const head = [...heads].find((each) => each.parentElement?.classList.contains(`col-${column.key}`));
      if (head) setText(head, unitOf(column) ?? '');
    });
    for (const { cells } of this.#lines) cells.forEach((at, j) => dress(at, this.#columns[j]));
  }

  /** @param {ReadonlySet<string>} lit */
  light(lit) {
    for (const { line, letters } of this.#lines) {
      line.classList.toggle('lit', letters.length > 0 && letters.some((letter) => lit.has(letter)));
      for (const button of line.querySelectorAll('.letter')) {
        button.setAttribute('aria-pressed', String(lit.has(button.textContent ?? '')));
      }
    }
  }

  #add() {
    const cells = this.#columns.map((column) => cell(column));
    const line = el('tr', { role: 'row' }, ...cells);
    const entry = { line, cells, letters: /** @type {string[]} */ ([]) };
    line.addEventListener('pointerenter', (event) => event.pointerType === 'mouse' && this.emit('hover', entry.letters));
    line.addEventListener('pointerleave', () => this.emit('hover', []));
    line.addEventListener('click', (event) => {
      const button = event.target instanceof Element ? event.target.closest('.letter') : null;
      const letter = button?.textContent ?? (entry.letters.length === 1 ? entry.letters[0] : undefined);
      if (letter) this.emit('tap', letter);
      else if (entry.letters.length > 1) this.emit('pick', entry.letters);
    });
    this.#lines.push(entry);
    this.#body.append(line);
  }

  /** @param {number} i @param {Row} row */
  #fill(i, row) {
    const entry = this.#lines[i];
    if (!entry) return;
    entry.letters = this.#lettersOf(row);
    this.#columns.forEach((column, j) => {
      const at = entry.cells[j];
      if (!at) return;
      if (column.letters) fillLetters(at, column.letters(row));
      else fillText(at, column.text(row), column.note?.(row));
    });
  }
}

/** @param {Column<any>} column */
function unitOf({ unit }) {
  return typeof unit === 'function' ? unit() : unit;
}

/** @param {HTMLElement} at @param {Column<any> | undefined} column */
function dress(at, column) {
  const unit = column && unitOf(column);
  if (unit) at.setAttribute('data-unit', unit);
}

/** @param {Column<any>} column */
function cell(column) {
  const { key, head, group, figures } = column;
  const name = [group, head].filter(Boolean).join(', ');
  const traits = { role: 'cell', class: `col-${key}${figures ? ' figures' : ''}`, 'data-head': name, 'data-unit': unitOf(column) };
  return el('td', traits, el('span', { class: 'cell-text' }));
}

/** @param {HTMLElement} at @param {string} text @param {string} [note] */
function fillText(at, text, note) {
  const [main, below] = at.children;
  if (main) setText(main, text);
  if (below) setText(below, note ?? '');
  else if (note) at.append(el('span', { class: 'cell-note', text: note }));
}

/** @param {HTMLElement} at @param {string[]} letters */
function fillLetters(at, letters) {
  const had = [...at.children].map(({ textContent }) => textContent);
  if (had.length === letters.length && had.every((letter, i) => letter === letters[i])) return;
  at.replaceChildren(...letters.map(letterButton));
}

/**
 * A part's letter as on the drawing; pressed, it lights the part.
 * @param {string} letter
 */
export function letterButton(letter) {
  return el('button', { type: 'button', class: 'letter', text: letter, 'aria-pressed': 'false', 'aria-label': say('light_part', { letter }) });
}

/** @param {Column<any>[]} columns */
function heads(columns) {
  const upper = el('tr', { role: 'row' });
  const lower = el('tr', { role: 'row' });
  columns.forEach((column, i) => {
    const traits = { role: 'columnheader', scope: 'col', class: `col-${column.key}${column.figures ? ' figures' : ''}` };
    const words = [el('span', { text: column.head }), column.unit ? el('span', { class: 'head-unit', text: unitOf(column) }) : null];
    if (!column.group) upper.append(el('th', { ...traits, rowspan: 2 }, ...words));
    else lower.append(el('th', traits, ...words));
    if (column.group && columns[i - 1]?.group !== column.group) {
      const span = columns.filter(({ group }) => group === column.group).length;
      upper.append(el('th', { role: 'columnheader', scope: 'colgroup', class: 'head-group', colspan: span, text: column.group }));
    }
  });
  return el('thead', { role: 'rowgroup' }, upper, lower.childElementCount > 0 ? lower : null);
}
