import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { number } from './format.js';
import { say } from './words.js';

/** @import { BookWish, Progress, Report, SheetRow, SheetWish } from './messages.d.ts' */

/** Names of all sheets, and of all of a kind, as the core knows them. */
const groups = /** @type {const} */ (['drawing', 'sheets', 'template', 'rod', 'setting', 'gauges', 'labels']);
/** Units of length, as the core knows them. */
const units = /** @type {const} */ (['mm', 'cm', 'in8', 'in16', 'in32', 'in64']);

/**
 * Sheets for the bench: which there are, on what paper, and buttons to save them. They are worked out when this list is
 * shown and the knobs are at rest.
 * @extends {Emitter<{ wanted: null, save: SheetWish, bind: BookWish }>}
 */
export class SheetList extends Emitter {
  #state = el('p', { class: 'list-note', role: 'status' });
  #paper = el('select', { id: 'sheet-paper', class: 'quote-field', onchange: () => this.#show() });
  #unit = el(
    'select',
    { id: 'sheet-unit', class: 'quote-field', onchange: () => this.#again() },
    ...units.map((unit) => el('option', { value: unit, text: say(`sheet_unit_${unit}`) })),
  );
  #rows = el('ul', { class: 'sheet-rows' });
  #book = el('button', {
    type: 'button',
    class: 'strong-button',
    text: say('sheet_book'),
    'aria-describedby': 'sheet-book-note',
    onclick: () => this.emit('bind', { paper: this.#paper.value, unit: this.unit }),
  });
  #progress = el('progress', { max: '1', value: '0', hidden: true });
  #whole = el('div', { class: 'export-buttons' }, ...groups.map((name) => this.#button(say(`sheet_all_${name}`), { sheet: name, format: 'pdf' }, false)));
  /** @type {SheetRow[]} */
  #sheets = [];
  container = el(
    'section',
    { class: 'sheets' },
    el('p', { class: 'list-note', text: say('sheets_note') }),
    el('label', { class: 'quote-label sheet-paper', for: 'sheet-paper' }, el('span', { text: say('sheet_paper') }), this.#paper),
    el('label', { class: 'quote-label sheet-paper', for: 'sheet-unit' }, el('span', { text: say('sheet_unit') }), this.#unit),
    el('div', { class: 'export-buttons' }, this.#book),
    el('p', { class: 'list-note', id: 'sheet-book-note', text: say('sheet_book_note') }),
    this.#whole,
    this.#progress,
    this.#state,
    this.#rows,
  );

  /** The design has changed: the list is asked for anew. @param {Report} _report */
  update(_report) {
    // On paper all lists are shown but this one.
    if (this.container.hidden) return;
    this.#again();
  }

  /** In which unit the figures are written. */
  get unit() {
    return this.#unit.value;
  }

  #again() {
    this.#rows.classList.add('stale');
    this.emit('wanted', null);
  }

  /** @param {SheetRow[]} sheets */
  list(sheets) {
    this.#sheets = sheets;
    this.#rows.classList.remove('stale');
    if (this.#paper.options.length === 0) {
      this.#paper.replaceChildren(...(sheets[0]?.pages ?? []).map(({ paper, label }) => el('option', { value: paper, text: label })));
    }
    this.#show();
  }

  /** @param {string} words @param {boolean} [busy] whether files are being made */
  tell(words, busy = false) {
    setText(this.#state, words);
    this.#progress.hidden = true;
    this.container.toggleAttribute('aria-busy', busy);
    for (const button of this.container.querySelectorAll('button')) button.disabled = busy;
  }

  /** How far the book is. @param {Progress} progress */
  progress({ done, total, words }) {
    setText(this.#state, say('sheet_binding', { words }));
    this.#progress.hidden = false;
    this.#progress.value = total > 0 ? done / total : 0;
  }

  #show() {
    this.#rows.replaceChildren(...this.#sheets.map((sheet) => this.#row(sheet)));
  }

  /** @param {SheetRow} sheet */
  #row({ name, title, width, height, scaled, pages }) {
    const count = pages.find(({ paper }) => paper === this.#paper.value)?.count ?? 0;
    const size = scaled ? say('sheet_scaled') : say('sheet_size', { width: number(width, 0), height: number(height, 0), count });
    return el(
      'li',
      { class: 'sheet-row' },
      el('span', { class: 'sheet-name' }, el('b', { text: title }), el('span', { class: 'sheet-size', text: size })),
      this.#button('PDF', { sheet: name, format: 'pdf' }, false, title),
      this.#button('SVG', { sheet: name, format: 'svg' }, false, title),
    );
  }

  /**
   * @param {string} words
   * @param {{ sheet: string, format: 'pdf' | 'svg' }} what
   * @param {boolean} strong
   * @param {string} [of]
   */
  #button(words, { sheet, format }, strong, of) {
    const save = () => this.emit('save', { sheet, format, paper: this.#paper.value, unit: this.unit });
    const name = of && say('sheet_save', { format: words, title: of });
    return el('button', { type: 'button', class: strong ? 'strong-button' : 'plain-button', text: words, 'aria-label': name, onclick: save });
  }
}
