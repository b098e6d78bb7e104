// Takes the place of start-worker.js in the single file, where nothing may be loaded from beside it.
import { bytesInside, inside } from './inside.js';
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
  compiled ??= WebAssembly.compile(bytesInside('core-base64'));
  compiled.then(
    (module) => worker.postMessage({ module }),
    // A browser that must not compile says so here; the worker would wait for ever.
    (why) => worker.dispatchEvent(new ErrorEvent('error', { message: String(why), cancelable: true })),
  );
  return worker;
}
