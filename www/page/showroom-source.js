import { kept } from './store.js';

/** @import { Bridge } from './bridge.js' */

/** Whether this is a published folder, which holds the Showroom alone. */
export const isPublished = false;

/**
 * The text of the showroom's file: beside the Workshop the one that this browser keeps; null is the invented workshop's.
 * @returns {Promise<string | null>}
 */
export async function showroomText() {
  return kept('showroom');
}

/**
 * The workshop's book that this browser keeps, for a preview with true prices; undefined is the invented workshop's.
 * @param {Bridge} bridge
 * @returns {Promise<{ shop?: unknown, why?: string }>}
 */
export async function book(bridge) {
  const text = kept('shop');
  if (text === null) return {};
  const answer = await bridge.ask('readShop', text);
  return answer.error ? { why: answer.error.why } : { shop: answer.ok.shop };
}
