import { customerWords } from './words-customers.js';
import { dimensionWords } from './words-dimensions.js';
import { habitWords } from './words-habits.js';
import { listWords } from './words-lists.js';
import { pageWords } from './words-page.js';
import { paperWords } from './words-papers.js';

/**
 * The page's own words, by key; the core brings the words of knobs, parts, joints and findings.
 * `{name}` stands for a value. `one|other` forms are chosen by the number `count`.
 */
const english = { ...pageWords, ...listWords, ...paperWords, ...customerWords, ...dimensionWords, ...habitWords };

/** @typedef {keyof typeof english} Word */

/** The language of the words, and the region after whose custom figures are written: a tag of BCP 47. */
export const speech = { language: 'en' };
const plurals = new Intl.PluralRules('en');

/** Writes figures from now on as this region does. @param {string} tag such as `en-GB` */
export function speak(tag) {
  speech.language = tag;
  document.documentElement.lang = tag;
}

/**
 * The words for `key`, with its values put in.
 * @param {Word} key
 * @param {Record<string, string | number>} [values]
 */
export function say(key, values = {}) {
  return chosen(english[key], values.count).replace(/\{(\w+)\}/g, (hole, name) => String(values[name] ?? hole));
}

/** @param {string} words @param {string | number | undefined} count */
function chosen(words, count) {
  const [one, other] = words.split('|');
  if (other === undefined || count === undefined) return words;
  return /** @type {string} */ (plurals.select(Number(count)) === 'one' ? one : other);
}

/**
 * Fills the words into the static page: `data-word` the text, `data-word-name` the accessible name.
 * @param {ParentNode} root
 */
export function fillWords(root) {
  for (const element of root.querySelectorAll('[data-word]')) {
    element.textContent = say(/** @type {Word} */ (element.getAttribute('data-word')));
  }
  for (const element of root.querySelectorAll('[data-word-name]')) {
    element.setAttribute('aria-label', say(/** @type {Word} */ (element.getAttribute('data-word-name'))));
  }
}
