import { knobFigure, lengthUnit, parseTyped, withUnit } from './format.js';
import { say } from './words.js';

/** @import { Knob } from './messages.d.ts' */

/**
 * What was typed for a knob: its value, and why it cannot be taken, which is empty when it can.
 * @param {Knob} knob @param {string} text
 * @returns {{ value: number | undefined, why: string }}
 */
export function readTyped(knob, text) {
  const value = parseTyped(text, knob.unit);
  return { value, why: refusal(knob, value) };
}

/** @param {Knob} knob @param {number | undefined} value */
function refusal(knob, value) {
  const { label, min, max, unit } = knob;
  const written = (/** @type {number} */ figure) => withUnit(knobFigure(knob, figure), unit);
  const limits = { label, min: written(min), max: written(max) };
  if (value === undefined) return say('not_number', { ...limits, unit: unit === 'mm' ? say('in_unit', { unit: lengthUnit() }) : '' });
  if (value < min || value > max) return say('out_of_range', { ...limits, value: written(value) });
  return knob.kind === 'count' && !Number.isInteger(value) ? say('not_whole', limits) : '';
}
