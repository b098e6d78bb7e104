import { download } from './design-file.js';
import { today } from './format.js';
import { sheetFonts } from './sheet-fonts.js';
import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Session } from './session.js' */
/** @import { SheetList } from './sheet-list.js' */
/** @import { Answer, BookWish, MadeFile, SheetFonts, SheetWish } from './messages.d.ts' */

/** No font is needed for a drawing that names its typeface. */
const NONE = { regular: new Uint8Array(), medium: new Uint8Array() };

/**
 * Fills the list with the sheets of the chair that is shown; an answer about an earlier one is let go.
 * @param {Bridge} bridge @param {Session} session @param {SheetList} list
 */
export async function listSheets(bridge, session, list) {
  const { built: design, shop } = session;
  const isShown = session.watch();
  const answer = await bridge.ask('sheets', { design, shop, unit: list.unit });
  if (!isShown()) return;
  if (answer.error) return list.tell(say('file_failed', { why: answer.error.why }));
  list.tell('');
  list.list(answer.ok);
}

/**
 * Makes a file of sheets and saves it; says which characters of the name its typeface does not have.
 * @param {Bridge} bridge @param {Session} session @param {SheetList} list @param {SheetWish} wish
 */
export async function saveSheet(bridge, session, list, wish) {
  list.tell(say('sheet_making'), true);
  const fonts = wish.format === 'pdf' ? await fontsOr(list) : NONE;
  if (!fonts) return;
  handOver(list, await bridge.ask('sheet', { wish: { ...wish, ...ofNow(session) }, fonts }));
}

/**
 * Binds the bench book and saves it, and says on the way which chapter is being made.
 * @param {Bridge} bridge @param {Session} session @param {SheetList} list @param {BookWish} wish
 */
export async function saveBook(bridge, session, list, wish) {
  list.tell(say('sheet_making'), true);
  const fonts = await fontsOr(list);
  if (!fonts) return;
  handOver(list, await bridge.ask('benchBook', { wish: { ...wish, ...ofNow(session) }, fonts }, (progress) => list.progress(progress)));
}

/** The chair that is shown, and the day. @param {Session} session */
function ofNow({ built: design, name, shop }) {
  return { design, name, date: today(), shop };
}

/** @param {SheetList} list @param {Answer<MadeFile & { missing: string }>} answer */
function handOver(list, answer) {
  if (answer.error) return list.tell(say('file_failed', { why: answer.error.why }));
  download(answer.ok);
  const { name, missing } = answer.ok;
  list.tell(say(missing ? 'sheet_made_without' : 'sheet_made', { name, missing: [...missing].join(' ') }));
}

/** @param {SheetList} list @returns {Promise<SheetFonts | undefined>} */
async function fontsOr(list) {
  try {
    return await sheetFonts();
  } catch (why) {
    list.tell(say('sheet_no_font', { why: String(why) }));
    return undefined;
  }
}
