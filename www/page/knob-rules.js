// Which knobs have something to say in a design, from the rows of the core's table alone.

/** @import { Design, Knob } from './messages.d.ts' */

/**
 * Whether a knob has any effect in this design.
 * @param {Knob} knob
 * @param {Design} design
 */
export function applies({ applies: rules = [] }, design) {
  return rules.every(({ knob, any }) => any.includes(String(design[knob])));
}

/**
 * The knobs of a table that some design of its kind can turn: a choice with one possibility is none,
 * and what depends on a choice that this kind never offers never comes up.
 * @param {Knob[]} knobs
 */
export function turnable(knobs) {
  const choices = new Map(knobs.map((knob) => [knob.name, knob.choices?.map(({ name }) => name)]));
  return knobs.filter(
    ({ choices: own, applies: rules = [] }) =>
      own?.length !== 1 && rules.every(({ knob, any }) => any.some((name) => choices.get(knob)?.includes(name))),
  );
}

/**
 * The knobs in their groups, both in the core's order.
 * @param {Knob[]} knobs
 * @returns {Knob[][]}
 */
export function grouped(knobs) {
  return [...Map.groupBy(knobs, ({ group }) => group).values()];
}
