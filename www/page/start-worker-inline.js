// Takes the place of start-worker.js in the single file, where nothing may be loaded from beside it.
import { blobAddress } from './trusted.js';

/** A file opened from a disk has no service worker, and needs none. */
export const served = false;

/** @type {Promise<WebAssembly.Module> | undefined} */
let compiled;

/**
 * Starts the worker that holds the core, from the text inside the page.
 * @returns {Worker}
 */
export function startWorker() {
  const address = URL.createObjectURL(new Blob([inside('worker-text')], { type: 'text/javascript' }));
  const worker = new Worker(blobAddress(address), { name: 'crestrail' });
  compiled ??= WebAssembly.compile(bytesOf(inside('core-base64')));
  compiled.then((module) => worker.postMessage({ module }));
  return worker;
}

/** @param {string} id */
function inside(id) {
  const text = document.getElementById(id)?.textContent;
  if (!text) throw new Error(`This file is not whole: its part “${id}” is missing.`);
  return text;
}

/** @param {string} base64 */
function bytesOf(base64) {
  const text = atob(base64.trim());
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
}
