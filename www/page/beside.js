import { Bridge } from './bridge.js';

/** How long a worker that has nothing to do is kept, ms: the next job then begins at once. */
const KEPT = 30_000;

/** The one worker that is kept. @type {Bridge | undefined} */
let resting;
/** @type {ReturnType<typeof setTimeout> | undefined} */
let timer;

/**
 * Does what takes long in a worker beside the one that answers the knobs. Who stops it gets nothing: the worker is ended, and the
 * next job has another.
 * @template Made
 * @param {AbortSignal} signal
 * @param {(bridge: Bridge) => Promise<Made>} work
 * @returns {Promise<Made | undefined>} undefined where it was stopped
 */
export async function beside(signal, work) {
  if (signal.aborted) return undefined;
  const bridge = take();
  const { promise: stopped, resolve: stop } = Promise.withResolvers();
  const aborted = () => stop(undefined);
  signal.addEventListener('abort', aborted);
  let clean = false;
  try {
    const made = /** @type {Made | undefined} */ (await Promise.race([work(bridge), stopped]));
    clean = !signal.aborted;
    return clean ? made : undefined;
  } finally {
    signal.removeEventListener('abort', aborted);
    if (clean && !resting) rest(bridge);
    else bridge.end();
  }
}

function take() {
  const bridge = resting ?? new Bridge();
  resting = undefined;
  clearTimeout(timer);
  return bridge;
}

/** @param {Bridge} bridge */
function rest(bridge) {
  resting = bridge;
  timer = setTimeout(() => {
    resting = undefined;
    bridge.end();
  }, KEPT);
}
