import { knobValue } from './format.js';
import { say } from './words.js';

/** @import { Knob, SafeRange, Stop } from './messages.d.ts' */

/**
 * Where a knob holds, in words.
 * @param {Knob} knob
 * @param {SafeRange} range
 * @param {number} failing how many checks fail already
 */
export function holdsWords(knob, { span, picks = [] }, failing) {
  const lines = span ? spanLines(knob, span) : pickLines(knob, picks);
  return [...lines, ...(failing > 0 ? [say('holds_failing')] : [])].join(' ');
}

/** @param {Knob} knob @param {NonNullable<SafeRange['span']>} span */
function spanLines(knob, { low, high }) {
  const values = { low: knobValue(knob, low.value), high: knobValue(knob, high.value) };
  const stops = [low.stop, high.stop].filter((stop) => stop !== null);
  const lines = stops.map((stop) => say('holds_stop', { value: knobValue(knob, stop.value ?? ''), why: why(stop) }));
  return [say(stops.length > 0 ? 'holds_span' : 'holds_all', values), ...lines];
}

/** @param {Knob} knob @param {NonNullable<SafeRange['picks']>} picks */
function pickLines(knob, picks) {
  const lines = picks.flatMap(({ name, stop }) => (stop ? [say('holds_pick', { label: knobValue(knob, name), why: why(stop) })] : []));
  return lines.length > 0 ? lines : [say('holds_picks')];
}

/** A joint's sentence does not name the joint. @param {Stop} stop */
function why({ subject, topic, say: words }) {
  return topic === 'joints' && subject ? say('pair', { name: subject, value: words }) : words;
}
