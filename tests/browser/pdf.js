// PDF files that the page saves, looked into by programs that know the format.
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { promisify } from 'node:util';

const run = promisify(execFile);

/**
 * Does something that saves a PDF file, demands that the file is sound, and reads it.
 * @param {import('playwright-core').Page} page @param {() => Promise<unknown>} act
 * @returns {Promise<{ name: string, words: string, sheets: number, design: unknown }>} the words in the order of the lines, and the design inside
 */
export async function savedPdf(page, act) {
  const [download] = await Promise.all([page.waitForEvent('download'), act()]);
  const [name, file] = [download.suggestedFilename(), await download.path()];
  assert.match((await run('qpdf', ['--check', file])).stdout, /No syntax or stream encoding errors found/, name);
  const words = (await run('pdftotext', ['-layout', file, '-'])).stdout;
  const sheets = Number((await run('qpdf', ['--show-npages', file])).stdout);
  const { stdout } = await run('qpdf', ['--show-attachment=design.json', file]);
  return { name, words, sheets, design: JSON.parse(stdout).knobs };
}
