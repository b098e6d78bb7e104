import { isDesign } from './history.js';

/** @import { Design } from './messages.d.ts' */

/** @typedef {{ id: string, name: string, date: string, design: Design }} Kept a design on the shelf; its date as in ISO 8601 */

/** So many designs have room: as many as anybody looks through. */
export const MOST_KEPT = 200;
/** How the file of a shelf begins. */
const HEADER = 'shelf/1';

/** A shelf as a text, in this browser and in a file. @param {readonly Kept[]} shelf */
export function written(shelf) {
  const designs = shelf.map(({ id, name, date, design }) => ({ id, name, date, knobs: design }));
  return `${JSON.stringify({ crestrail: HEADER, designs }, null, 1)}\n`;
}

/**
 * Reads a shelf. Whether each design is one that the core knows is not asked here.
 * @param {string} text
 * @returns {Kept[]}
 * @throws {TypeError} where it is none
 */
export function read(text) {
  const { crestrail, designs } = JSON.parse(text) ?? {};
  if (crestrail !== HEADER || !Array.isArray(designs)) throw new TypeError('no shelf');
  return designs.map(({ id, name, date, knobs }) => {
    if (![id, name, date].every((word) => typeof word === 'string') || !isDesign(knobs)) throw new TypeError('no design');
    return { id, name, date: Number.isNaN(Date.parse(date)) ? new Date(0).toISOString() : date, design: knobs };
  });
}

/**
 * With one more, in front.
 * @param {readonly Kept[]} shelf @param {Omit<Kept, 'id'>} named @param {number} [at] its place
 * @returns {Kept[]}
 */
export function added(shelf, named, at = 0) {
  return [...shelf.slice(0, at), { id: freshId(shelf), ...named }, ...shelf.slice(at)];
}

/** @param {readonly Kept[]} shelf @param {string} id @param {string} name @returns {Kept[]} */
export function renamed(shelf, id, name) {
  return shelf.map((kept) => (kept.id === id ? { ...kept, name } : kept));
}

/** @param {readonly Kept[]} shelf @param {string} id @returns {Kept[]} */
export function without(shelf, id) {
  return shelf.filter((kept) => kept.id !== id);
}

/**
 * With all of another one behind it that are not on it already.
 * @param {readonly Kept[]} shelf @param {readonly Kept[]} others
 * @returns {{ shelf: Kept[], count: number }} and how many were added
 */
export function joined(shelf, others) {
  const key = (/** @type {Kept} */ { name, design }) => JSON.stringify([name, Object.entries(design).sort(([one], [other]) => (one < other ? -1 : 1))]);
  const known = new Set(shelf.map(key));
  const made = [...shelf];
  for (const kept of others) {
    if (known.has(key(kept))) continue;
    known.add(key(kept));
    made.push({ ...kept, id: freshId(made, kept.id) });
  }
  return { shelf: made, count: made.length - shelf.length };
}

/** A name for programs that none of them has yet. @param {readonly Kept[]} shelf @param {string} [wished] */
function freshId(shelf, wished = '') {
  const taken = new Set(shelf.map(({ id }) => id));
  if (/^[a-z0-9]{1,12}$/.test(wished) && !taken.has(wished)) return wished;
  let number = shelf.length + 1;
  while (taken.has(`k${number}`)) number += 1;
  return `k${number}`;
}
