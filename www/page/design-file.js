import { say } from './words.js';

/** @import { Answer, MadeFile } from './messages.d.ts' */

/** Far above any design or order and any PDF file of them, far below what would stall the page, in bytes. */
const MOST = 1_000_000;
const MOST_PDF = 30_000_000;

/**
 * Reads a file that somebody chose or dropped; of a PDF file what is inside.
 * @param {File} file
 * @param {(bytes: Uint8Array) => Promise<Answer<{ text: string }>>} attached gets the text out of a PDF file
 * @returns {Promise<{ text: string } | { why: string }>}
 */
export async function readFile(file, attached) {
  const printed = file.type === 'application/pdf' || /\.pdf$/i.test(file.name);
  if (file.size > (printed ? MOST_PDF : MOST)) return { why: say('open_too_big', { size: (file.size / 1e6).toFixed(1) }) };
  try {
    if (!printed) return { text: await file.text() };
    const answer = await attached(new Uint8Array(await file.arrayBuffer()));
    return answer.ok ?? { why: answer.error.why };
  } catch {
    return { why: say('open_unread') };
  }
}

/** As much of a file's name as is told, in characters. */
const TOLD = 48;

/**
 * What a file is called in a sentence: in one line, with nothing in it that turns the direction of the text, and with its ending.
 * @param {File} file
 */
export function calledFile({ name }) {
  const tidy = [...name.replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu, ' ').trim()];
  const half = TOLD / 2;
  return tidy.length > TOLD ? [...tidy.slice(0, half), '…', ...tidy.slice(-half)].join('') : tidy.join('');
}

/**
 * Hands a file to the browser to save.
 * @param {Pick<MadeFile, 'name' | 'type'> & { bytes: BlobPart }} file
 */
export function download({ name, type, bytes }) {
  const address = URL.createObjectURL(new Blob([bytes], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser has taken hold of the blob by the next task; a minute is for slow disks.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/**
 * A file name made from a design's name: letters, digits and dashes.
 * @param {string} name
 */
export function fileStem(name) {
  const plain = name
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase();
  return plain || 'chair';
}

/** What a dragged link or text may come as, the more certain first. */
const TEXTS = ['text/uri-list', 'text/plain'];

/**
 * Calls with each file dropped anywhere on the page, or with a text in which a link to a chair stands, and marks the page
 * while one hovers. What is dropped into a field stays there.
 * @param {HTMLElement} page
 * @param {(file: File) => void} opened @param {(text: string) => void} linked
 */
export function listenForDrops(page, opened, linked) {
  page.dataset.drop = say('drop_here');
  const inField = (/** @type {DragEvent} */ { target }) => target instanceof Element && target.closest('input, textarea') !== null;
  const carries = (/** @type {DragEvent} */ event) => {
    const types = event.dataTransfer?.types ?? [];
    return types.includes('Files') || (!inField(event) && TEXTS.some((type) => types.includes(type)));
  };
  page.addEventListener('dragover', (event) => {
    if (!carries(event)) return;
    event.preventDefault();
    page.classList.add('dropping');
  });
  page.addEventListener('dragleave', (event) => {
    if (event.relatedTarget === null) page.classList.remove('dropping');
  });
  page.addEventListener('drop', (event) => {
    page.classList.remove('dropping');
    if (!carries(event)) return;
    event.preventDefault();
    const file = event.dataTransfer?.files[0];
    if (file) return opened(file);
    const text = TEXTS.map((type) => event.dataTransfer?.getData(type) ?? '').find((dropped) => dropped.includes('design/'));
    if (text) linked(text);
  });
}
