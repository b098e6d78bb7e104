import { download } from './design-file.js';
import { sheetFonts } from './sheet-fonts.js';
import { say } from './words.js';

/** @import { Answer, MadeFile, SheetFonts } from './messages.d.ts' */
/** @typedef {Answer<MadeFile & { missing: string }>} Printed with the characters that its typefaces do not have */

/**
 * Makes a PDF file with the typefaces that it takes in, and saves it.
 * @param {(words: string) => void} tell
 * @param {(fonts: SheetFonts) => Promise<Printed | undefined>} make gives nothing where it was stopped
 * @param {'sheet' | 'quote'} [what] whose words tell that it is saved
 */
export async function savePdf(tell, make, what = 'sheet') {
  /** @type {SheetFonts} */
  let fonts;
  try {
    fonts = await sheetFonts();
  } catch (why) {
    return tell(say('sheet_no_font', { why: String(why) }));
  }
  const made = await make(fonts);
  if (made) handOver(tell, made, what);
}

/**
 * Saves a file that was printed, and says which characters stand in it as empty boxes.
 * @param {(words: string) => void} tell @param {Printed} answer @param {'sheet' | 'quote'} [what]
 */
export function handOver(tell, answer, what = 'sheet') {
  if (answer.error) return tell(say('file_failed', { why: answer.error.why }));
  download(answer.ok);
  const { name, missing } = answer.ok;
  tell(say(missing ? `${what}_made_without` : `${what}_made`, { name, missing: [...missing].join(' ') }));
}
