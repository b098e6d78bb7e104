import { applies, turnable } from './knob-rules.js';

/** @import { Design, Knob, Value } from './messages.d.ts' */

/** The highest number that chairs are drawn from. */
export const MOST_NUMBER = 999_999;
/** Who sits here and where is not drawn: it stays as the page has it. */
const GIVEN = 'use';
/** So many knobs are turned at once; where the chair does not hold, they are tried in halves. */
const TOGETHER = 4;
/** How often the way to a drawn size is halved before the knob stays where it is. */
const HALVES = 2;

/**
 * A chair drawn from a number: the same number gives the same one, from the same beginning, knobs and limits.
 *
 * All values are drawn before any is tried, so that what holds decides only how far each comes. Sizes near the beginning are drawn more
 * often than those at the ends, as chairs are.
 * @param {object} from
 * @param {number} from.number
 * @param {Design} from.begins a design that holds
 * @param {Knob[]} from.knobs that may be turned, within their limits
 * @param {(design: Design) => Promise<boolean>} from.holds whether nothing fails
 * @param {(done: number, total: number) => void} [from.report]
 * @returns {Promise<Design>}
 */
export async function drawChair({ number, begins, knobs, holds, report = () => {} }) {
  const next = numbers(number);
  const open = shuffled(turnable(knobs).filter(({ name, group }) => name !== 'family' && group !== GIVEN), next);
  const wanted = new Map(open.map((knob) => [knob.name, drawn(knob, Number(begins[knob.name]), next)]));
  // What is chosen decides which sizes there are.
  const order = [...open.filter(({ kind }) => kind === 'choice'), ...open.filter(({ kind }) => kind !== 'choice')];
  let design = begins;
  let done = 0;
  /** @param {Knob[]} some @returns {Promise<void>} */
  const put = async (some) => {
    const turned = some.filter((knob) => applies(knob, design) && wanted.get(knob.name) !== design[knob.name]);
    if (turned.length === 0) return;
    const tried = { ...design, ...Object.fromEntries(turned.map(({ name }) => [name, /** @type {Value} */ (wanted.get(name))])) };
    if (await holds(tried)) design = tried;
    else if (turned.length > 1) {
      const half = Math.ceil(turned.length / 2);
      await put(turned.slice(0, half));
      await put(turned.slice(half));
    } else design = await nearer(/** @type {Knob} */ (turned[0]), tried, design, holds);
  };
  for (let at = 0; at < order.length; at += TOGETHER) {
    await put(order.slice(at, at + TOGETHER));
    done = Math.min(order.length, at + TOGETHER);
    report(done, order.length);
  }
  const tidy = settled(design, begins, open);
  return (await holds(tidy)) ? tidy : design;
}

/** Without what was turned while it applied, and does not any more. @param {Design} design @param {Design} begins @param {Knob[]} knobs @returns {Design} */
function settled(design, begins, knobs) {
  const idle = knobs.filter((knob) => !applies(knob, design) && design[knob.name] !== begins[knob.name]);
  if (idle.length === 0) return design;
  const made = { ...design, ...Object.fromEntries(idle.map(({ name }) => [name, /** @type {Value} */ (begins[name])])) };
  return settled(made, begins, knobs.filter((knob) => !idle.includes(knob)));
}

/** Half way back, and half of that. @param {Knob} knob @param {Design} tried @param {Design} design @param {(design: Design) => Promise<boolean>} holds */
async function nearer(knob, tried, design, holds) {
  if (knob.kind === 'choice') return design;
  let value = Number(tried[knob.name]);
  const start = Number(design[knob.name]);
  for (let half = 0; half < HALVES; half += 1) {
    value = onStep(knob, (value + start) / 2);
    if (value === start) return design;
    const closer = { ...design, [knob.name]: value };
    if (await holds(closer)) return closer;
  }
  return design;
}

/** @param {Knob} knob @param {number} start @param {() => number} next @returns {Value} */
function drawn(knob, start, next) {
  if (knob.kind === 'choice') {
    const choices = knob.choices ?? [];
    return choices[Math.floor(next() * choices.length)]?.name ?? knob.default;
  }
  const way = next() + next() - 1;
  return onStep(knob, start + way * (way > 0 ? knob.max - start : start - knob.min));
}

/** The nearest value that the knob can stand at. @param {Knob} knob @param {number} value */
function onStep({ min, max, step }, value) {
  const stepped = min + Math.round((value - min) / step) * step;
  return Number(Math.min(max, Math.max(min, stepped)).toFixed(6));
}

/** @template Item @param {Item[]} items @param {() => number} next @returns {Item[]} */
function shuffled(items, next) {
  const made = [...items];
  for (let last = made.length - 1; last > 0; last -= 1) {
    const at = Math.floor(next() * (last + 1));
    [made[last], made[at]] = [/** @type {Item} */ (made[at]), /** @type {Item} */ (made[last])];
  }
  return made;
}

/**
 * Numbers from 0 to below 1 that follow from a seed, the same on every machine: a counter by steps of the golden ratio, its bits stirred by
 * multiplications and shifts as in the finaliser of MurmurHash3 (from memory; nothing but evenness is asked of it).
 * @param {number} seed
 * @returns {() => number}
 */
export function numbers(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let bits = state;
    bits = Math.imul(bits ^ (bits >>> 16), 0x85ebca6b);
    bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
    return ((bits ^ (bits >>> 16)) >>> 0) / 2 ** 32;
  };
}
