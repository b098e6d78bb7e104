// Lengths as the page writes and reads them. Inside all is millimetres; the core's length.rs writes those on paper, and a
// test holds the two to the same figures.
import { Emitter } from './emitter.js';
import { keep, kept } from './store.js';

/** @typedef {'mm' | 'cm' | 'in'} Unit */

/** mm in an inch. */
const INCH = 25.4;
/** Inches are written in parts of so many. */
const PARTS = 16;
/** A remainder of less than this many inches is none. */
const EXACT = 0.0005;
/** A length half way between two figures goes to the greater one, whatever the last bits of its arithmetic; mm. */
const HAIR = 1e-7;

/** @type {readonly Unit[]} */
export const units = ['mm', 'cm', 'in'];

/** mm in one of a unit. @type {Record<Unit, number>} */
const sizes = { mm: 1, cm: 10, in: INCH };

/**
 * What lengths are written in: as chosen in this browser, else as the page was told.
 * @extends {Emitter<{ change: Unit }>}
 */
class Lengths extends Emitter {
  /** @type {Unit} */
  unit = unitOf(kept('lengths')) ?? 'mm';
  #chosen = unitOf(kept('lengths')) !== undefined;

  /** @param {string} unit */
  choose(unit) {
    keep('lengths', unit);
    this.#chosen = true;
    this.#set(unit);
  }

  /** What the maker writes lengths in, where the reader has not chosen. @param {string | null | undefined} unit */
  suggest(unit) {
    if (!this.#chosen && unit) this.#set(unit);
  }

  /** mm in one of the unit. */
  get size() {
    return sizes[this.unit];
  }

  /** The steps in which a hand moves a length, mm; `fine` for small ones. @param {number} step in millimetres */
  step(step) {
    if (this.unit === 'in') return step < 1 ? INCH / 64 : INCH / PARTS;
    return step;
  }

  /** @param {string} unit */
  #set(unit) {
    const known = unitOf(unit);
    if (!known || known === this.unit) return;
    this.unit = known;
    this.emit('change', known);
  }
}

export const lengths = new Lengths();

/** @param {string | null} text @returns {Unit | undefined} */
function unitOf(text) {
  return units.find((unit) => unit === text);
}

/**
 * Inches and a fraction, with what the fraction leaves over, in inches.
 * @param {number} mm @param {number} [parts]
 */
export function inches(mm, parts = PARTS) {
  const size = Math.abs(mm) / INCH;
  const count = Math.round(size * parts);
  const left = (size - count / parts) * (mm < 0 ? -1 : 1);
  let [above, below] = [count % parts, parts];
  while (above > 0 && above % 2 === 0) [above, below] = [above / 2, below / 2];
  const whole = Math.floor(count / parts);
  const sign = mm < 0 && count > 0 ? '-' : '';
  const figure = above === 0 ? `${whole}` : whole === 0 ? `${above}/${below}` : `${whole} ${above}/${below}`;
  return { figure: sign + figure, left: Math.abs(left) < EXACT ? 0 : left };
}

/**
 * A length in the chosen unit, without it, as lists tell it: what a fraction of an inch leaves over stands behind it.
 * @param {number} mm @param {(value: number, digits: number) => string} write @param {number} digits of millimetres
 * @param {Unit} [unit]
 */
export function figureOf(mm, write, digits, unit = lengths.unit) {
  if (unit === 'mm') return write(mm + HAIR, digits);
  if (unit === 'cm') return write((mm + HAIR) / 10, digits + 1);
  const { figure, left } = inches(mm);
  return left === 0 ? figure : `${figure} ${left < 0 ? '-' : '+'}${Math.abs(left).toFixed(3).replace(/^0/, '')}`;
}

/** What stands behind a length. */
const suffixes = /** @type {const} */ ([
  [/\s*(mm|millimet(re|er)s?)$/i, 1],
  [/\s*(cm|centimet(re|er)s?)$/i, 10],
  [/\s*(m|met(re|er)s?)$/i, 1000],
  [/\s*(in|inch|inches|"|″|”|'')\.?$/i, INCH],
  [/\s*(ft|foot|feet|'|′|’)\.?$/i, 12 * INCH],
]);

/** What behind feet would be feet again. */
const isFeet = /[^']'(?!')|′|’|ft|foot|feet/i;

/** Fractions that stand as one character. @type {Record<string, string>} */
const vulgar = { '½': '1/2', '¼': '1/4', '¾': '3/4', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8' };

/** No length that people type is longer, characters. */
const LONGEST = 60;

/**
 * A length as people type it, in mm: `450`, `46 cm`, `0,46 m`, `18 1/4 in`, `18¼″`, `1' 6 1/2"`; a bare number is in the chosen
 * unit. Undefined where it is none.
 * @param {string} typed @param {Unit} [unit] of a bare number
 * @returns {number | undefined}
 */
export function readLength(typed, unit = lengths.unit) {
  if (typed.length > LONGEST) return undefined;
  const text = typed.trim().replace(/^≈\s*/, '').replace(/[−–]/g, '-').replace(/[½¼¾⅛⅜⅝⅞]/g, (sign) => ` ${vulgar[sign]}`).replace(/⁄/g, '/');
  const feet = /^(\d+)\s*(?:'(?!')|′|’|ft)\.?\s*(\S.*)$/i.exec(text);
  if (feet) {
    const rest = isFeet.test(feet[2] ?? '') ? undefined : readLength(feet[2] ?? '', 'in');
    return rest === undefined ? undefined : rounded(Number(feet[1]) * 12 * INCH + rest);
  }
  const found = suffixes.find(([suffix]) => suffix.test(text));
  const size = found ? found[1] : sizes[unit];
  const figure = readFigure(found ? text.replace(found[0], '') : text);
  return figure === undefined ? undefined : rounded(figure * size);
}

/** To a millionth, so that a typed figure is not blurred by its arithmetic. @param {number} mm */
function rounded(mm) {
  return Math.round(mm * 1e6) / 1e6;
}

/** `18`, `18.25`, `18,25`, `1/4`, `18 1/4`, `18-1/4`. @param {string} text */
function readFigure(text) {
  const bare = text.trim();
  const plain = /^[+-]?(\d+[.,]?\d*|[.,]\d+)$/.exec(bare);
  if (plain) return Number(bare.replace(',', '.'));
  const mixed = /^(?:(\d+)[\s-]+)?(\d+)\s*\/\s*(\d+)$/.exec(bare);
  if (!mixed || Number(mixed[3]) === 0) return undefined;
  return Number(mixed[1] ?? 0) + Number(mixed[2]) / Number(mixed[3]);
}
