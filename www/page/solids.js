import { el } from './dom.js';
import { Emitter } from './emitter.js';
import { say } from './words.js';

/** @import { ShapeRow, SolidsWish } from './messages.d.ts' */

const formats = /** @type {const} */ (['step', 'stl', 'glb']);

/**
 * Solids for other programs: of the whole chair or of one part. Which parts there are is asked for when this is opened.
 * @extends {Emitter<{ wanted: null, save: SolidsWish }>}
 */
export class Solids extends Emitter {
  #part = el('select', { id: 'solids-part', class: 'quote-field' }, el('option', { value: '', text: say('solids_whole') }));
  #buttons = formats.map((format) =>
    el('button', { type: 'button', class: 'plain-button', text: say(`solids_${format}`), onclick: () => this.emit('save', { format, part: this.#part.value }) }),
  );
  container = el(
    'details',
    { class: 'solids' },
    el('summary', { text: say('solids') }),
    el('p', { class: 'list-note', text: say('solids_note') }),
    el('label', { class: 'quote-label sheet-paper', for: 'solids-part' }, say('solids_part'), this.#part),
    el('div', { class: 'export-buttons' }, ...this.#buttons),
  );

  constructor() {
    super();
    this.container.addEventListener('toggle', () => this.update());
  }

  /** The chair is another one, or this was opened. */
  update() {
    if (this.container.open) this.emit('wanted', null);
  }

  /** @param {ShapeRow[]} shapes */
  list(shapes) {
    const before = this.#part.value;
    const options = shapes.map(({ name, title, count }) => el('option', { value: name, text: say('solids_row', { name, title, count }) }));
    this.#part.replaceChildren(el('option', { value: '', text: say('solids_whole') }), ...options);
    this.#part.value = shapes.some(({ name }) => name === before) ? before : '';
  }
}
