/** @typedef {Node | string | null | undefined | false} Child */

/**
 * Makes an element. `class`, `text` and listeners (`onclick`, …) are set as such, all else as attributes;
 * `true` sets an empty attribute, `false`, null and undefined set none.
 * @template {keyof HTMLElementTagNameMap} Tag
 * @param {Tag} tag
 * @param {Record<string, any>} [traits]
 * @param {...Child} children
 * @returns {HTMLElementTagNameMap[Tag]}
 */
export function el(tag, traits = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(traits)) trait(made, name, value);
  for (const child of children) if (child) made.append(child);
  return made;
}

/** @param {HTMLElement} made @param {string} name @param {any} value */
function trait(made, name, value) {
  if (value === undefined || value === null || value === false) return;
  if (name === 'class') made.className = value;
  else if (name === 'text') made.textContent = value;
  else if (name.startsWith('on')) made.addEventListener(name.slice(2), value);
  else made.setAttribute(name, value === true ? '' : String(value));
}

/**
 * Sets an element's text only where it differs, so that an unchanged cell costs nothing.
 * @param {Element} element
 * @param {string} text
 */
export function setText(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/**
 * The element of index.html with this id.
 * @template {HTMLElement} [Kind=HTMLElement]
 * @param {string} id
 * @param {{ new (): Kind }} [kind]
 * @returns {Kind}
 */
export function byId(id, kind) {
  const found = document.getElementById(id);
  if (!(found instanceof (kind ?? HTMLElement))) throw new Error(`index.html has no #${id}`);
  return /** @type {Kind} */ (found);
}

/**
 * Calls once, a while after the last of a run of calls.
 * @param {number} wait milliseconds
 * @param {() => void} call
 */
export function debounce(wait, call) {
  let timer = 0;
  return () => {
    clearTimeout(timer);
    timer = window.setTimeout(call, wait);
  };
}

/** Lets the browser answer its user between two pieces of work. @returns {Promise<void>} */
export function breath() {
  return /** @type {any} */ (globalThis).scheduler?.yield?.() ?? new Promise((done) => setTimeout(done));
}

/** How long work goes on before the next breath, ms. */
const STINT = 8;

/**
 * Does the same with each of many things, a few at a time.
 * @template Item
 * @param {Item[]} items @param {(item: Item) => void} act
 * @param {() => boolean} isWanted asked after each breath
 */
export async function inStints(items, act, isWanted) {
  let since = performance.now();
  for (const item of items) {
    act(item);
    if (performance.now() - since < STINT) continue;
    await breath();
    if (!isWanted()) return;
    since = performance.now();
  }
}
