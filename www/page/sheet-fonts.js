/** @import { SheetFonts } from './messages.d.ts' */

/** @type {Promise<SheetFonts> | undefined} */
let loading;

/**
 * The typefaces that a PDF file takes in; they are fetched when the first such file is made.
 * @returns {Promise<SheetFonts>}
 */
export function sheetFonts() {
  loading ??= Promise.all([bytesOf('fonts/crestrail-sans-regular.ttf'), bytesOf('fonts/crestrail-sans-medium.ttf')]).then(([regular, medium]) => ({ regular, medium }));
  // A fetch that failed may be tried again.
  loading.catch(() => (loading = undefined));
  return loading;
}

/** @param {string} name */
async function bytesOf(name) {
  const answer = await fetch(name);
  if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
}
