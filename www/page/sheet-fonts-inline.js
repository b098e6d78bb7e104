// Takes the place of sheet-fonts.js in the single file, where nothing may be loaded from beside it.
import { bytesInside } from './inside.js';

/** @import { SheetFonts } from './messages.d.ts' */

/**
 * The typefaces that a PDF file takes in, from inside the page.
 * @returns {Promise<SheetFonts>}
 */
export async function sheetFonts() {
  return { regular: bytesInside('font-regular-base64'), medium: bytesInside('font-medium-base64') };
}
