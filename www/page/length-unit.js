import { el } from './dom.js';
import { Emitter } from './emitter.js';
import { lengths } from './length.js';
import { keep, kept } from './store.js';
import { say } from './words.js';

/** Units of length, as the core knows them. */
const units = /** @type {const} */ (['mm', 'cm', 'in8', 'in16', 'in32', 'in64']);
const KEPT = 'length-unit';
/** What the page writes lengths in, as sheets write it. */
const shown = /** @type {const} */ ({ mm: 'mm', cm: 'cm', in: 'in16' });

/** What the page writes lengths in now, as the core names it. */
export function sheetUnit() {
  return shown[lengths.unit];
}

/**
 * In which unit lengths stand on all sheets and in all lists that are taken away: one choice, kept in this browser, with a
 * control wherever it matters. Until it is made it is that of the page.
 * @extends {Emitter<{ changed: null }>}
 */
class LengthUnit extends Emitter {
  /** @type {string | undefined} */
  #chosen = units.find((unit) => unit === kept(KEPT));
  /** @type {HTMLSelectElement[]} */
  #selects = [];

  constructor() {
    super();
    lengths.on('change', () => this.#chosen === undefined && this.#tell());
  }

  get value() {
    return this.#chosen ?? sheetUnit();
  }

  /** A control that always shows the choice. @param {string} id */
  control(id) {
    const options = units.map((unit) => el('option', { value: unit, text: say(`sheet_unit_${unit}`) }));
    const select = el('select', { id, class: 'quote-field', onchange: () => this.#choose(select.value) }, ...options);
    select.value = this.value;
    this.#selects.push(select);
    return select;
  }

  /** @param {string} value */
  #choose(value) {
    this.#chosen = value;
    keep(KEPT, value);
    this.#tell();
  }

  #tell() {
    for (const select of this.#selects) select.value = this.value;
    this.emit('changed', null);
  }
}

export const lengthUnit = new LengthUnit();
