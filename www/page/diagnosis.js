// Loaded when the core did not start: finds out what keeps it from starting, in words for who is at the page.
import { served } from './start-worker.js';
import { say } from './words.js';

/** What the worker is made of, in the order in which it is loaded. */
export const parts = ['worker.js', 'crestrail.js', 'crestrail_bg.wasm'];
/** How long a file may take before it counts as cut off, in milliseconds. */
const PATIENCE = 20_000;
/** The least module there is: what every wasm file begins with. */
const MAGIC = Uint8Array.of(0, 0x61, 0x73, 0x6d, 1, 0, 0, 0);

/** @param {string} why as the worker told it */
export async function diagnosis(why) {
  if (typeof WebAssembly === 'undefined') return say('trouble_no_wasm');
  if (!compiles() || /content.security.policy|\bCSP\b/i.test(why)) return say('trouble_wasm_forbidden');
  if (typeof Worker === 'undefined' || why === say('worker_forbidden')) return say('trouble_worker');
  for (const part of served ? parts : []) {
    const found = await amiss(part);
    if (found) return found;
  }
  return why === say('worker_silent') ? say('trouble_worker') : say('trouble_core', { why });
}

/** Whether the page may compile at all. */
function compiles() {
  try {
    return new WebAssembly.Module(MAGIC) instanceof WebAssembly.Module;
  } catch {
    return false;
  }
}

/** @param {string} file @returns {Promise<string | undefined>} what is wrong with it */
async function amiss(file) {
  try {
    const response = await fetch(new URL(`./${file}`, document.baseURI), { cache: 'no-cache', signal: AbortSignal.timeout(PATIENCE) });
    if (!response.ok) return say('trouble_absent', { file, status: response.status });
    const bytes = new Uint8Array(await response.arrayBuffer());
    return isItself(file, bytes) ? undefined : say('trouble_other', { file });
  } catch {
    return say('trouble_cut', { file });
  }
}

/** Whether a file is what its name says, and not a page in its place. @param {string} file @param {Uint8Array} bytes */
function isItself(file, bytes) {
  if (file.endsWith('.wasm')) return MAGIC.every((byte, i) => bytes[i] === byte);
  return !new TextDecoder().decode(bytes.subarray(0, 200)).trimStart().startsWith('<');
}
