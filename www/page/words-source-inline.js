// Takes the place of words-source.js in the single file, where nothing may be loaded from beside it.
import { inside } from './inside.js';

/** @import { Catalogue } from './words.js' */

/**
 * The words of a language, which lie inside the page.
 * @param {string} code
 * @returns {Promise<{ page: Catalogue, core: string }>}
 */
export async function wordsOf(code) {
  return { page: JSON.parse(inside(`words-${code}`)), core: inside(`words-core-${code}`) };
}
