import { number } from './format.js';
import { inches, lengths } from './length.js';
import { say, speech } from './words.js';

/** A figure as the core writes it, in text from right to left apart from what is around it. */
const FIGURE = String.raw`[\u2066-\u2069]*(\d+(?:[.,]\d+)?)[\u2066-\u2069]*`;
/** What stands between figures that share a unit: sizes by each other, and ranges, in each language of the page. */
const BETWEEN = String.raw`\s*(?:×|–|\bto\b|\bbis\b|\ba\b|à|\bhadi\b|إلى)\s*`;
/** Millimetres behind one figure or several; squared and cubed ones are none. */
const BEHIND = new RegExp(`${FIGURE}(?:${BETWEEN}${FIGURE}){0,2}\\s(?:mm(?![\\w²³])|مم(?!\\p{L}))`, 'gu');
/** Swahili has the unit before its figures. */
const BEFORE = new RegExp(`\\bmm ${FIGURE}(?:${BETWEEN}${FIGURE}){0,2}`, 'gu');

/** Below this a fraction of an inch says too little, mm. */
const FINE = 3;
/** Below this sixty-fourths are told, mm. */
const SMALL = 50;

/**
 * A sentence of the core's, which tells lengths in millimetres, in the unit chosen.
 * @param {string} text
 */
export function inUnit(text) {
  if (lengths.unit === 'mm') return text;
  const unit = say(`unit_${lengths.unit}`);
  const swapped = (/** @type {string} */ found) => found.replace(/\d+(?:[.,]\d+)?/g, figure).replace(/mm|مم/, unit);
  const told = text.replace(BEHIND, swapped);
  return speech.code === 'sw' ? told.replace(BEFORE, swapped) : told;
}

/** @param {string} told */
function figure(told) {
  const decimals = /[.,](\d+)/.exec(told)?.[1]?.length ?? 0;
  return proseFigure(Number(told.replace(',', '.')), decimals);
}

/**
 * A length as it stands in a sentence, in the unit chosen, without it: of inches the nearest fraction.
 * @param {number} mm @param {number} digits of millimetres
 */
export function proseFigure(mm, digits) {
  if (lengths.unit === 'mm') return number(mm, digits);
  if (lengths.unit === 'cm') return number(mm / 10, digits + 1);
  if (mm < FINE) return number(mm / 25.4, 3);
  return inches(mm, mm < SMALL ? 64 : 16).figure;
}
