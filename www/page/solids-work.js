import { download } from './design-file.js';
import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Exports } from './exports.js' */
/** @import { Session } from './session.js' */
/** @import { Solids } from './solids.js' */
/** @import { SolidsWish } from './messages.d.ts' */

/**
 * Fills the list with the parts of the chair that is shown; an answer about an earlier one is let go.
 * @param {Bridge} bridge @param {Session} session @param {Solids} solids @param {Exports} exporting
 */
export async function listShapes(bridge, session, solids, exporting) {
  const { built: design, shop } = session;
  const isShown = session.watch();
  const answer = await bridge.ask('shapes', { design, shop });
  if (!isShown()) return;
  if (answer.error) return exporting.update(say('file_failed', { why: answer.error.why }));
  solids.list(answer.ok);
}

/**
 * Makes a file of solids and saves it.
 * @param {Bridge} bridge @param {Session} session @param {SolidsWish} wish @param {Exports} exporting
 */
export async function saveSolids(bridge, session, wish, exporting) {
  exporting.update(say('file_making', { name: say(`solids_${wish.format}`), words: '' }), 0);
  // To the second, as ISO 8601.
  const stamp = new Date().toISOString().slice(0, 19);
  const answer = await bridge.ask('exchange', { ...wish, stamp, design: session.built, name: session.name, shop: session.shop });
  if (answer.error) return exporting.update(say('file_failed', { why: answer.error.why }));
  download(answer.ok);
  exporting.update(say('file_made', { name: answer.ok.name }));
}
