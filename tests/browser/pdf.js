// PDF files that the page saves, looked into by programs that know the format.
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { savedFile } from './engines.js';

const run = promisify(execFile);

/**
 * Does something that saves a PDF file, demands that the file is sound, and reads it.
 * @param {import('playwright-core').Page} page @param {() => Promise<unknown>} act
 * @returns {Promise<{ name: string, title: string, words: string, sheets: number, design: any }>} the words in the order of the lines, and the knobs of the design that is inside, if one is
 */
export async function savedPdf(page, act) {
  const [download] = await Promise.all([savedFile(page), act()]);
  const [name, file] = [download.suggestedFilename(), await download.path()];
  assert.match((await run('qpdf', ['--check', file])).stdout, /No syntax or stream encoding errors found/, name);
  const words = (await run('pdftotext', ['-layout', file, '-'])).stdout;
  const sheets = Number((await run('qpdf', ['--show-npages', file])).stdout);
  const title = /^Title:\s*(.*)$/m.exec((await run('pdfinfo', [file])).stdout)?.[1] ?? '';
  const inside = (await run('qpdf', ['--list-attachments', file])).stdout;
  const design = inside.includes('design.json') ? JSON.parse((await run('qpdf', ['--show-attachment=design.json', file])).stdout).knobs : undefined;
  return { name, title, words, sheets, design };
}
