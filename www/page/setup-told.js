import { setupWords } from './words-setup.js';
import { say, sayOf } from './words.js';

/** @import { Values, Word } from './words.js' */

/**
 * The words for a key of setting up, or of any page.
 * @param {keyof typeof setupWords | Word} key
 * @param {Values} [values]
 */
export function told(key, values) {
  return key in setupWords ? sayOf(setupWords, /** @type {keyof typeof setupWords} */ (key), values) : say(/** @type {Word} */ (key), values);
}
