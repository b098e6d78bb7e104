import { el } from './dom.js';
import { Emitter } from './emitter.js';
import { keep, kept } from './store.js';
import { say } from './words.js';

/** Units of length, as the core knows them. */
const units = /** @type {const} */ (['mm', 'cm', 'in8', 'in16', 'in32', 'in64']);
const KEPT = 'length-unit';

/**
 * In which unit lengths stand on all sheets and in all lists that are taken away: one choice, kept in this browser, with a
 * control wherever it matters.
 * @extends {Emitter<{ changed: null }>}
 */
class LengthUnit extends Emitter {
  /** @type {string} */
  #value = units.find((unit) => unit === kept(KEPT)) ?? units[0];
  /** @type {HTMLSelectElement[]} */
  #selects = [];

  get value() {
    return this.#value;
  }

  /** A control that always shows the choice. @param {string} id */
  control(id) {
    const options = units.map((unit) => el('option', { value: unit, text: say(`sheet_unit_${unit}`) }));
    const select = el('select', { id, class: 'quote-field', onchange: () => this.#choose(select.value) }, ...options);
    select.value = this.#value;
    this.#selects.push(select);
    return select;
  }

  /** @param {string} value */
  #choose(value) {
    this.#value = value;
    keep(KEPT, value);
    for (const select of this.#selects) select.value = value;
    this.emit('changed', null);
  }
}

export const lengthUnit = new LengthUnit();
