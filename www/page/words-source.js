/** @import { Catalogue } from './words.js' */

/**
 * The words of a language, which lie beside the page and are fetched when the page is to speak it.
 * @param {string} code
 * @returns {Promise<Catalogue>}
 */
export async function wordsOf(code) {
  const answer = await fetch(`./words/${code}.json`);
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.json();
}
