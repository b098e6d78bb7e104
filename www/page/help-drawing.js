import { el } from './dom.js';
import { knobValue } from './format.js';
import { around, drawn, frame, putSmall, SMALL_VIEW } from './thumbnail.js';
import { say } from './words.js';

/** @import { Design, Knob, Value, View } from './messages.d.ts' */
/** @import { Box } from './thumbnail.js' */

/** How often the way from an end of a range to the present value is halved until the core can draw the chair. */
const HALVES = 3;
/** A side that moves less, in units of the drawing, is not marked. */
const LEAST = 1.5;
/** Ticks at the ends of the line that marks the way, in units of the drawing. */
const TICK = 7;
const NS = 'http://www.w3.org/2000/svg';
/** Long enough that the box is on screen before it is filled: what is hidden cannot be measured. */
const VIEW = /** @type {View} */ ({ ...SMALL_VIEW, scheme: 'light' });

/** @typedef {{ value: Value, svg: string }} Drawn */

/**
 * Draws into a box what a knob moves: the chair with the knob at one end in grey, and at the other with all that changed marked. One way
 * for all knobs, by comparing two pictures to one scale; nothing here knows what a knob means.
 * @param {HTMLElement} box that is shown
 * @param {Knob} knob @param {Design} design that can be built
 * @param {(design: Design, view: View) => Promise<string | undefined>} picture
 */
export async function drawHelp(box, knob, design, picture) {
  const at = async (/** @type {Value} */ value) => {
    const svg = await picture({ ...design, [knob.name]: value }, VIEW);
    return svg === undefined ? undefined : { value, svg };
  };
  const [low, high] = knob.kind === 'choice' ? await twoChoices(knob, design, at) : [await reached(knob, knob.min, design, at), await reached(knob, knob.max, design, at)];
  if (!low || !high || !box.isConnected || box.hidden) return;
  const drawing = el('div', { class: 'help-drawing' });
  box.replaceChildren(drawing);
  const moved = lay(drawing, low.svg, high.svg);
  const words = moved ? say('help_drawing', { label: knob.label, low: knobValue(knob, low.value), high: knobValue(knob, high.value) }) : say('help_same');
  box.append(el('p', { class: 'help-words', text: words }));
}

/** An end of the range, or the farthest from the present value on the way there that can be made. @param {Knob} knob @param {number} end @param {Design} design @param {(value: Value) => Promise<Drawn | undefined>} at */
async function reached({ name, min, step }, end, design, at) {
  const present = Number(design[name]);
  let value = end;
  for (let half = 0; half <= HALVES; half += 1) {
    const drawn = await at(value);
    if (drawn) return drawn;
    value = Number((min + Math.round(((value + present) / 2 - min) / step) * step).toFixed(6));
  }
  return at(present);
}

/** The present choice, and the first other one that looks different. @param {Knob} knob @param {Design} design @param {(value: Value) => Promise<Drawn | undefined>} at */
async function twoChoices({ name, choices = [] }, design, at) {
  const present = await at(design[name] ?? '');
  let other;
  for (const choice of choices) {
    if (choice.name === design[name]) continue;
    const drawn = await at(choice.name);
    other ??= drawn;
    if (drawn && present && drawn.svg !== present.svg) return [present, drawn];
  }
  return [present, other];
}

/** @param {HTMLElement} box @param {string} low @param {string} high @returns {boolean} whether anything moved */
function lay(box, low, high) {
  const before = putSmall(box, low);
  const parts = partsOf(before);
  const was = drawn(before);
  const known = new Set(parts.map(({ outerHTML }) => outerHTML));
  const after = putSmall(box, high);
  const news = new Set(partsOf(after).map(({ outerHTML }) => outerHTML));
  const lit = partsOf(after).filter(({ outerHTML }) => !known.has(outerHTML));
  const gone = parts.filter(({ outerHTML }) => !news.has(outerHTML));
  for (const part of lit) part.classList.add('moved');
  for (const part of gone) part.classList.add('was');
  for (const layer of after.querySelectorAll(':scope > :not([data-letter])')) layer.remove();
  after.prepend(...gone);
  if (lit.length === 0 && gone.length === 0) return false;
  frame([after], around([was, drawn(after)]));
  const way = wayOf(boxOf(gone), boxOf(lit));
  if (way) after.append(way);
  return true;
}

/** @param {SVGSVGElement} drawing @returns {SVGGraphicsElement[]} */
function partsOf(drawing) {
  return [...drawing.querySelectorAll(':scope > [data-letter]')].filter((part) => part instanceof SVGGraphicsElement);
}

/** @param {SVGGraphicsElement[]} parts @returns {Box | undefined} */
function boxOf(parts) {
  return parts.length > 0 ? around(parts.map((part) => part.getBBox())) : undefined;
}

/** A dimension line over the way of the side that moves most. @param {Box | undefined} was @param {Box | undefined} is */
function wayOf(was, is) {
  if (!was || !is) return undefined;
  const shifts = [
    { from: was.y, to: is.y, upright: true },
    { from: was.y + was.height, to: is.y + is.height, upright: true },
    { from: was.x, to: is.x, upright: false },
    { from: was.x + was.width, to: is.x + is.width, upright: false },
  ];
  const { from, to, upright } = shifts.reduce((most, shift) => (Math.abs(shift.to - shift.from) > Math.abs(most.to - most.from) ? shift : most));
  if (Math.abs(to - from) < LEAST) return undefined;
  const beside = upright ? Math.max(was.x + was.width, is.x + is.width) - TICK : Math.max(was.y + was.height, is.y + is.height) - TICK;
  const point = (/** @type {number} */ along, /** @type {number} */ off) => (upright ? `${beside + off} ${along}` : `${along} ${beside + off}`);
  const line = document.createElementNS(NS, 'path');
  line.setAttribute('class', 'way');
  line.setAttribute('d', `M${point(from, 0)}L${point(to, 0)}M${point(from, -TICK)}L${point(from, TICK)}M${point(to, -TICK)}L${point(to, TICK)}`);
  return line;
}
