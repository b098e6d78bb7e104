import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { Job } from './job.js';
import { lengthUnit } from './length-unit.js';
import { say } from './words.js';

/** @import { FileKind } from './messages.d.ts' */

const kinds = /** @type {const} */ (['cutting_list_csv', 'bill_csv', 'report_json', 'picture_svg', 'parts_list_html']);

/**
 * Buttons for all that can be taken away, and how far the making of a file is.
 * @extends {Emitter<{ file: FileKind, print: null }>}
 */
export class Exports extends Emitter {
  #words = el('p', { class: 'export-words', role: 'status' });
  /** The making of a file; another one that is asked for meanwhile takes its place. */
  job = new Job(say('take_away'), (words) => this.update(words));

  /** @param {HTMLElement} container @param {HTMLElement} solids */
  constructor(container, solids) {
    super();
    this.container = container;
    const unit = lengthUnit.control('file-unit');
    const print = el('button', { type: 'button', class: 'strong-button', text: say('file_print'), onclick: () => this.emit('print', null) });
    const files = kinds.map((kind) => el('button', { type: 'button', class: 'plain-button', text: say(`file_${kind}`), onclick: () => this.emit('file', kind) }));
    container.replaceChildren(
      el('h2', { text: say('take_away') }),
      el('label', { class: 'quote-label', for: unit.id }, el('span', { text: say('file_unit') }), unit),
      el('div', { class: 'export-buttons' }, print, ...files),
      solids,
      el('div', { class: 'export-state' }, this.#words, this.job.container),
    );
  }

  /** @param {string} words */
  update(words) {
    setText(this.#words, words);
  }
}
