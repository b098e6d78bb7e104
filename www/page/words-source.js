/** @import { Catalogue } from './words.js' */

/**
 * The words of a language, which lie beside the page and are fetched when the page is to speak it.
 * @param {string} code
 * @returns {Promise<{ page: Catalogue, core: string }>} the page's own, and the text that the core reads its texts from
 */
export async function wordsOf(code) {
  const [page, core] = await Promise.all([textOf(`./words/${code}.json`), textOf(`./words-core/${code}.json`)]);
  return { page: JSON.parse(page), core };
}

/** @param {string} address */
async function textOf(address) {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.text();
}
