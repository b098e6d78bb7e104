import { figureOf, inches, lengths, readLength, units } from './length.js';
import { say, speech } from './words.js';

/** @import { Bill, Knob, Value } from './messages.d.ts' */

/** @type {Map<number, Intl.NumberFormat>} those of one language */
const formats = new Map();
let formatsOf = speech.language;

/**
 * A number with up to `digits` decimals, and a true minus sign.
 * @param {number} value
 * @param {number} [digits]
 */
export function number(value, digits = 1) {
  return formatOf(digits, 0).format(value + 0).replace('-', '−');
}

/**
 * A number with just so many decimals, for columns that must align.
 * @param {number} value
 * @param {number} digits
 */
export function fixed(value, digits) {
  return formatOf(digits, digits).format(value + 0).replace('-', '−');
}

/** This day where the reader is, such as `2026-03-09`. */
export function today() {
  const now = new Date();
  const two = (/** @type {number} */ figure) => String(figure).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** @param {number} most @param {number} least */
function formatOf(most, least) {
  if (formatsOf !== speech.language) formats.clear();
  formatsOf = speech.language;
  const key = most * 10 + least;
  const known = formats.get(key);
  if (known) return known;
  const made = new Intl.NumberFormat(speech.language, {
    maximumFractionDigits: most,
    minimumFractionDigits: least,
    useGrouping: false,
  });
  formats.set(key, made);
  return made;
}

/**
 * An amount of money in a bill's currency, with its sign or code.
 * @param {number} minor integer minor units
 * @param {Pick<Bill, 'currency' | 'minor_digits'>} bill
 */
export function money(minor, { currency, minor_digits: digits }) {
  const value = minor / 10 ** digits;
  const options = { style: /** @type {const} */ ('currency'), currency, minimumFractionDigits: digits, maximumFractionDigits: digits };
  return new Intl.NumberFormat(speech.language, options).format(value);
}

/**
 * A knob's value as it is read: with its unit, or a choice by its label.
 * @param {Knob} knob
 * @param {Value} value
 */
export function knobValue(knob, value) {
  if (knob.kind === 'choice') return knob.choices?.find((choice) => choice.name === value)?.label ?? String(value);
  return withUnit(knobFigure(knob, Number(value), 2), knob.unit);
}

/**
 * The figure of a knob without its unit; a fraction of an inch that is not exact says so.
 * @param {Knob} knob @param {number} value @param {number} [digits]
 */
export function knobFigure({ unit }, value, digits = 3) {
  if (unit !== 'mm') return number(value, digits);
  if (lengths.unit !== 'in') return figureOf(value, number, digits);
  const { figure, left } = inches(value, inchParts(value));
  return left === 0 ? figure : say('about', { figure });
}

/** Sixteenths, but where a length is told exactly by finer parts. @param {number} value mm */
function inchParts(value) {
  return [16, 32, 64].find((parts) => inches(value, parts).left === 0) ?? 16;
}

/** A length of a list with its unit; a space that does not break keeps both together. @param {number} mm @param {number} [digits] of millimetres */
export function length(mm, digits = 1) {
  return `${lengthFigure(mm, digits)}\u00a0${lengthUnit()}`;
}

/** The same without its unit. @param {number} mm @param {number} [digits] */
export function lengthFigure(mm, digits = 1) {
  return figureOf(mm, number, digits);
}

/** The same with just so many decimals, for columns that must align. @param {number} mm @param {number} digits */
export function fixedLength(mm, digits) {
  return figureOf(mm, fixed, digits);
}

/**
 * A size that nobody works to, to the whole millimetre or the nearest sixteenth of an inch.
 * @param {number} mm @param {boolean} [named] with its unit
 */
export function wholeLength(mm, named = false) {
  const figure = lengths.unit === 'in' ? inches(mm).figure : figureOf(mm, number, 0);
  return named ? `${figure} ${lengthUnit()}` : figure;
}

/** @param {string} figure @param {Knob['unit']} unit */
export function withUnit(figure, unit) {
  if (!unit) return figure;
  return unit === 'deg' ? `${figure}${unitWords(unit)}` : `${figure} ${unitWords(unit)}`;
}

/** A unit as it stands behind a figure; a length's is the one chosen. @param {NonNullable<Knob['unit']>} unit */
export function unitWords(unit) {
  if (unit === 'mm') return lengthUnit();
  return say(/** @type {const} */ ({ deg: 'unit_deg', '%': 'unit_percent', kg: 'unit_kg' })[unit]);
}

/** What lengths are written in, as it stands behind a figure. */
export function lengthUnit() {
  return say(`unit_${lengths.unit}`);
}

/** A value with its unit as a screen reader says it. @param {Knob} knob @param {number} value */
export function spoken(knob, value) {
  const { unit } = knob;
  const figure = knobFigure(knob, value);
  if (!unit) return figure;
  if (unit === 'mm') return say(`spoken_${lengths.unit}`, { value: figure });
  return say(/** @type {const} */ ({ deg: 'spoken_deg', '%': 'spoken_percent', kg: 'spoken_kg' })[unit], { value: figure });
}

/** Arabic-Indic digits, those of Persian, and the Arabic sign for decimals (Unicode), as they may be typed. */
const OTHER_DIGITS = /[\u0660-\u0669\u06f0-\u06f9]/g;

/** @param {string} text */
export function plainDigits(text) {
  return text.replace(OTHER_DIGITS, (digit) => String(digit.charCodeAt(0) & 15)).replace('\u066b', '.');
}

/**
 * A number as people type it: a comma or a point for decimals, any minus sign, digits of Arabic script too, the knob's own unit or none. Lengths may
 * have any unit of length.
 * @param {string} typed
 * @param {Knob['unit']} unit
 * @returns {number | undefined} undefined where it is no number
 */
export function parseTyped(typed, unit) {
  const clean = plainDigits(typed.replace(/[\u200e\u200f\u061c\u2066-\u2069]/g, '').trim());
  if (unit === 'mm') return typedLength(clean);
  const bare = clean.replace(/^[−–]/, '-').replace(',', '.');
  const suffix = { deg: /\s*(°|deg)$/i, '%': /\s*%$/, kg: /\s*kg$/i, none: /$/ }[unit ?? 'none'];
  const word = unit ? unitWords(unit) : '';
  const figure = (word && bare.endsWith(word) ? bare.slice(0, -word.length).trimEnd() : bare).replace(suffix, '');
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(figure) ? Number(figure) : undefined;
}

/** A length whose unit may be written as the page's language writes it. @param {string} clean */
function typedLength(clean) {
  const named = units.find((unit) => clean.endsWith(say(`unit_${unit}`)));
  return named ? readLength(clean.slice(0, -say(`unit_${named}`).length), named) : readLength(clean);
}
