import { debounce, el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { standsAtFoot } from './first.js';
import { keepLow } from './foot.js';
import { money, wholeLength } from './format.js';
import { say } from './words.js';

/** @import { Label as LabelData, Seen } from './messages.d.ts' */

/** Long enough that a drag is told once, when it rests, ms. */
const REST = 900;

/**
 * The label at the foot of the Showroom: sizes, price if one is told, and the way to a quote.
 * @extends {Emitter<{ ask: null }>}
 */
export class Label extends Emitter {
  #container;
  #row;
  #size = el('dd', {});
  #seat = el('dd', {});
  #price = el('dd', {});
  #priceCell = cell('price', say('label_price'), this.#price);
  #spoken = el('p', { class: 'unseen', 'aria-live': 'polite' });
  #words = '';
  #busy = false;
  #tell = debounce(REST, () => !this.#busy && setText(this.#spoken, this.#words));
  #ask = el('button', { type: 'button', class: 'strong-button ask-button', text: say('ask'), disabled: true, onclick: () => this.emit('ask', null) });

  /** @param {HTMLElement} container @param {string | null} note what stands beside a price */
  constructor(container, note) {
    super();
    const cells = el('dl', { class: 'cells' }, cell('size', say('label_size'), this.#size), cell('seat', say('seat'), this.#seat), this.#priceCell);
    if (note) this.#priceCell.append(el('dd', { class: 'price-note', text: note }));
    this.#container = container;
    this.#row = el('div', { class: 'label-row' }, cells, this.#ask);
    if (!standsAtFoot()) this.#stand();
    keepLow(this.#container);
  }

  #stand() {
    if (!this.#row.isConnected) this.#container.replaceChildren(this.#row, this.#spoken);
  }

  /** @param {Seen} seen @param {boolean} told whether the maker tells prices */
  update({ overall, label }, told) {
    const sizes = [overall.width, overall.depth, overall.height].map((size) => wholeLength(size)).join(' × ');
    setText(this.#size, sizes);
    setText(this.#seat, wholeLength(overall.seat_height, true));
    const price = label ? priceWords(label) : say('label_none');
    setText(this.#price, price);
    this.#priceCell.hidden = !told;
    this.#ask.disabled = false;
    this.#stand();
    this.#words = [sizes, told ? price : ''].filter(Boolean).join('. ');
    this.#tell();
  }

  /** Sizes and price of an earlier moment are marked as such, and not said aloud. @param {boolean} busy */
  busy(busy) {
    this.#busy = busy;
    if (!busy) this.#tell();
    this.#container.setAttribute('aria-busy', String(busy));
  }
}

/** A price as it stands on the label. @param {LabelData} label */
export function priceWords(label) {
  const price = money(label.price_minor, label);
  return label.from ? say('label_from', { price }) : price;
}

/** @param {string} key @param {string} head @param {HTMLElement} value */
function cell(key, head, value) {
  return el('div', { class: `cell cell-${key}` }, el('dt', { text: head }), value);
}
