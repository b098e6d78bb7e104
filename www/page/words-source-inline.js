// Takes the place of words-source.js in the single file, where nothing may be loaded from beside it.
import { inside } from './inside.js';

/** @import { Catalogue } from './words.js' */

/**
 * The words of a language, which lie inside the page.
 * @param {string} code
 * @returns {Promise<Catalogue>}
 */
export async function wordsOf(code) {
  return JSON.parse(inside(`words-${code}`));
}
