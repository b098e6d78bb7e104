import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { number } from './format.js';
import { Job } from './job.js';
import { lengthUnit } from './length-unit.js';
import { say } from './words.js';

/** @import { BookWish, Report, SheetRow, SheetWish } from './messages.d.ts' */

/** Kinds of sheets as the core names them, in the order in which they are told; a sheet is named `kind` or `kind-which`. */
const kinds = /** @type {const} */ (['drawing', 'template', 'rod', 'setting', 'gauges', 'labels']);
/** More single sheets of a kind than this are folded away. */
const FEW = 3;

/**
 * Sheets for the bench: which there are, on what paper, and buttons to save them. They are worked out when this list is
 * shown and the knobs are at rest.
 * @extends {Emitter<{ wanted: null, save: SheetWish, bind: BookWish }>}
 */
export class SheetList extends Emitter {
  #state = el('p', { class: 'list-note sheet-state', role: 'status' });
  #paper = el('select', { id: 'sheet-paper', class: 'quote-field', onchange: () => this.#show() });
  #unit = lengthUnit.control('sheet-unit');
  #groups = el('div', { class: 'sheet-groups' });
  #book = el('button', {
    type: 'button',
    class: 'strong-button',
    text: say('sheet_book'),
    'aria-describedby': 'sheet-book-note',
    onclick: () => this.#ready && this.emit('bind', { paper: this.#paper.value, unit: lengthUnit.value }),
  });
  /** The drawing of sheets, and the binding of the book: one at a time. */
  job = new Job(say('tab_sheets'), (words) => this.tell(words));
  /** @type {SheetRow[]} */
  #sheets = [];
  /** Kinds whose single sheets are shown. @type {Set<string>} */
  #open = new Set();
  container = el(
    'section',
    { class: 'sheets' },
    el('p', { class: 'list-note', text: say('sheets_note') }),
    el('div', { class: 'sheet-choices' }, labelled('sheet_paper', this.#paper), labelled('sheet_unit', this.#unit)),
    el('div', { class: 'export-buttons' }, this.#book, this.#button(say('sheet_drawing'), 'drawing', 'pdf'), this.#button(say('sheet_bench'), 'sheets', 'pdf')),
    el('p', { class: 'list-note', id: 'sheet-book-note', text: say('sheet_book_note') }),
    this.#state,
    this.job.container,
    this.#groups,
  );

  constructor() {
    super();
    this.#tellButtons();
    lengthUnit.on('changed', () => this.container.hidden || this.#again());
  }

  /** The design has changed: the list is asked for anew. @param {Report} _report */
  update(_report) {
    // On paper all lists are shown but this one.
    if (this.container.hidden) return;
    this.#again();
  }

  #again() {
    this.#groups.classList.add('stale');
    this.emit('wanted', null);
  }

  /** @param {SheetRow[]} sheets */
  list(sheets) {
    this.#sheets = sheets;
    this.#groups.classList.remove('stale');
    if (this.#paper.options.length === 0) {
      this.#paper.replaceChildren(...(sheets[0]?.pages ?? []).map(({ paper, label }) => el('option', { value: paper, text: label })));
    }
    this.#show();
  }

  /** @param {string} words */
  tell(words) {
    setText(this.#state, words);
    this.#tellButtons();
  }

  /** Whether a sheet can be saved: one at a time, and when it is known what there is. */
  get #ready() {
    return !this.job.runs && this.#sheets.length > 0;
  }

  /** A button that is switched off would lose the focus, so it only says that it does nothing now. */
  #tellButtons() {
    this.container.setAttribute('aria-busy', String(this.job.runs));
    for (const button of this.container.querySelectorAll('.export-buttons button, .sheet-groups button')) button.setAttribute('aria-disabled', String(!this.#ready));
  }

  #show() {
    const groups = kinds.map((kind) => ({ kind, rows: this.#sheets.filter(({ name }) => name.split('-')[0] === kind) }));
    this.#groups.replaceChildren(...groups.filter(({ rows }) => rows.length > 0).map(({ kind, rows }) => this.#group(kind, rows)));
    this.#tellButtons();
  }

  /** @param {typeof kinds[number]} kind @param {SheetRow[]} rows */
  #group(kind, rows) {
    const whole = say(`sheet_whole_${kind}`);
    const all = rows.length > 1 && el('ul', { class: 'sheet-rows' }, line(whole, '', this.#button('PDF', kind, 'pdf', false, whole)));
    const single = el('ul', { class: 'sheet-rows' }, ...rows.map((row) => this.#row(row)));
    return el(
      'section',
      { class: 'sheet-group' },
      el('h3', { text: say(`sheet_kind_${kind}`) }),
      el('p', { class: 'list-note', text: say(`sheet_kind_${kind}_note`) }),
      all,
      rows.length > FEW ? this.#folded(kind, rows.length, single) : single,
    );
  }

  /** What was open stays open when the list comes anew. @param {typeof kinds[number]} kind @param {number} count @param {HTMLElement} single */
  #folded(kind, count, single) {
    const folded = el('details', { class: 'sheet-single', open: this.#open.has(kind) }, el('summary', { text: say('sheet_single', { count }) }), single);
    folded.addEventListener('toggle', () => (folded.open ? this.#open.add(kind) : this.#open.delete(kind)));
    return folded;
  }

  /** @param {SheetRow} sheet */
  #row({ name, title, width, height, scaled, full_size: full, pages }) {
    const count = pages.find(({ paper }) => paper === this.#paper.value)?.count ?? 0;
    const sheets = say('sheet_count', { count });
    const size = full ? say('sheet_size', { width: number(width, 0), height: number(height, 0), sheets }) : scaled ? say('sheet_scaled') : sheets;
    return line(title, size, this.#button('PDF', name, 'pdf', false, title), this.#button('SVG', name, 'svg', false, title));
  }

  /**
   * @param {string} words
   * @param {string} sheet
   * @param {'pdf' | 'svg'} format
   * @param {boolean} [strong]
   * @param {string} [of] the sheet's name, where the words do not tell it
   */
  #button(words, sheet, format, strong = false, of) {
    const save = () => this.#ready && this.emit('save', { sheet, format, paper: this.#paper.value, unit: lengthUnit.value });
    const name = of && say('sheet_save', { format: words, title: of });
    return el('button', { type: 'button', class: strong ? 'strong-button' : 'plain-button', text: words, 'aria-label': name, onclick: save });
  }
}

/** @param {'sheet_paper' | 'sheet_unit'} word @param {HTMLSelectElement} select */
function labelled(word, select) {
  return el('label', { class: 'quote-label', for: select.id }, el('span', { text: say(word) }), select);
}

/** @param {string} title @param {string} size @param {...HTMLButtonElement} buttons */
function line(title, size, ...buttons) {
  return el('li', { class: 'sheet-row' }, el('span', { class: 'sheet-name' }, el('span', { text: title }), size && el('span', { class: 'sheet-size', text: size })), ...buttons);
}
