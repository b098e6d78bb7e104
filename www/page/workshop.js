import { keep, kept, setAside } from './store.js';
import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Session } from './session.js' */

/** The names under which the workshop's file and its showroom's are kept. */
const KEY = 'shop';
const SHOWROOM = 'showroom';

/** Which kind of file of this program a text is; a page may be a quote. @param {string} text */
export function kindOf(text) {
  if (text.trimStart().startsWith('<')) return 'order';
  return /"crestrail"\s*:\s*"(shop|order|showroom)\//.exec(text)?.[1] ?? 'design';
}

/**
 * Puts a workshop's file in force, if the core finds nothing wrong with it; else the one in force stays.
 * @param {Bridge} bridge @param {Session} session @param {string} text @param {string} file
 * @returns {Promise<{ words: string, good: boolean }>}
 */
export async function openShop(bridge, session, text, file) {
  const answer = await bridge.ask('readShop', text);
  if (answer.error) return { words: say('shop_failed', { file, where: answer.error.where, why: answer.error.why }), good: false };
  session.shop = answer.ok.shop;
  const name = String(/** @type {any} */ (answer.ok.shop).name);
  return keep(KEY, text) ? { words: say('shop_opened', { name }), good: true } : { words: say('shop_unkept', { name }), good: true };
}

/**
 * Puts the workshop in force that this browser keeps.
 * @param {Bridge} bridge @param {Session} session
 * @returns {Promise<{ words: string, key: string } | undefined>} what is wrong with it, and where it is set aside
 */
export async function bringShop(bridge, session) {
  const text = kept(KEY);
  if (text === null) return undefined;
  const answer = await bridge.ask('readShop', text);
  if (answer.ok) session.shop = answer.ok.shop;
  else if (answer.error.where !== 'worker') return aside(KEY, (key) => say('shop_corrupt', { why: answer.error.why, key }));
  return undefined;
}

/**
 * Keeps a showroom's file, which the Showroom beside this page then shows, if the core finds nothing wrong with it.
 * @param {Bridge} bridge @param {Session} session @param {string} text @param {string} file
 * @returns {Promise<{ words: string, good: boolean }>}
 */
export async function openShowroom(bridge, session, text, file) {
  const answer = await bridge.ask('readShowroom', text);
  if (answer.error) return { words: say('showroom_failed', { file, where: answer.error.where, why: answer.error.why }), good: false };
  session.showroom = answer.ok.showroom;
  const { brand } = answer.ok;
  return keep(SHOWROOM, text) ? { words: say('showroom_opened', { brand }), good: true } : { words: say('showroom_unkept', { brand }), good: false };
}

/**
 * Puts the showroom in force that this browser keeps.
 * @param {Bridge} bridge @param {Session} session
 * @returns {Promise<{ words: string, key: string } | undefined>} what is wrong with it, and where it is set aside
 */
export async function bringShowroom(bridge, session) {
  const text = kept(SHOWROOM);
  if (text === null) return undefined;
  const answer = await bridge.ask('readShowroom', text);
  if (answer.ok) session.showroom = answer.ok.showroom;
  else if (answer.error.where !== 'worker') return aside(SHOWROOM, (key) => say('showroom_corrupt', { where: answer.error.where, why: answer.error.why, key }));
  return undefined;
}

/** @param {string} name @param {(key: string) => string} words */
function aside(name, words) {
  const key = setAside(name);
  return { words: words(key), key };
}
