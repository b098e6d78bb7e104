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
  return withUnit(number(Number(value), 2), knob.unit);
}

/** @param {string} figure @param {Knob['unit']} unit */
export function withUnit(figure, unit) {
  if (!unit) return figure;
  return unit === 'deg' ? `${figure}${unitWords(unit)}` : `${figure} ${unitWords(unit)}`;
}

/** A unit as it stands behind a figure. @param {NonNullable<Knob['unit']>} unit */
export function unitWords(unit) {
  return say(/** @type {const} */ ({ mm: 'unit_mm', deg: 'unit_deg', '%': 'unit_percent', kg: 'unit_kg' })[unit]);
}

/** A value with its unit as a screen reader says it. @param {Knob} knob @param {number} value */
export function spoken({ unit }, value) {
  const figure = number(value, 3);
  if (!unit) return figure;
  return say(/** @type {const} */ ({ mm: 'spoken_mm', deg: 'spoken_deg', '%': 'spoken_percent', kg: 'spoken_kg' })[unit], { value: figure });
}

/** Arabic-Indic digits, those of Persian, and the Arabic sign for decimals (Unicode), as they may be typed. */
const OTHER_DIGITS = /[\u0660-\u0669\u06f0-\u06f9]/g;

/** @param {string} text */
export function plainDigits(text) {
  return text.replace(OTHER_DIGITS, (digit) => String(digit.charCodeAt(0) & 15)).replace('\u066b', '.');
}

/**
 * A number as people type it: a comma or a point for decimals, any minus sign, digits of Arabic script too, the knob's own unit or none.
 * @param {string} typed
 * @param {Knob['unit']} unit
 * @returns {number | undefined} undefined where it is no number
 */
export function parseTyped(typed, unit) {
  const bare = plainDigits(typed.replace(/[\u200e\u200f\u061c\u2066-\u2069]/g, '').trim()).replace(/^[−–]/, '-').replace(',', '.');
  const suffix = { mm: /\s*mm$/i, deg: /\s*(°|deg)$/i, '%': /\s*%$/, kg: /\s*kg$/i, none: /$/ }[unit ?? 'none'];
  const word = unit ? unitWords(unit) : '';
  const figure = (word && bare.endsWith(word) ? bare.slice(0, -word.length).trimEnd() : bare).replace(suffix, '');
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(figure) ? Number(figure) : undefined;
}
