import { scriptAddress } from './trusted.js';

/** Whether the page can be kept for use without a network by a service worker. */
export const served = true;

/**
 * Starts the worker that holds the core.
 * @returns {Worker}
 */
export function startWorker() {
  return new Worker(scriptAddress('./worker.js'), { type: 'module', name: 'crestrail' });
}
