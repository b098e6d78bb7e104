import { RangeWork } from './range-work.js';

/** @import { Call, Question, Reply } from './messages.d.ts' */
/** @import * as api from './crestrail.js' */

/** @typedef {typeof api} Api */
/** @typedef {(done: number, total: number, words: string) => void} Report */

const rangeWork = new RangeWork();

/** One entry for each call the page may make. */
const calls = /** @type {Record<Call, (api: Api, request: any, report: Report) => unknown>} */ ({
  families: (api) => ({ ok: api.families() }),
  knobs: (api, request) => api.knobs(request?.family),
  turnInto: (api, request) => api.turnInto(request),
  step: (api, request) => api.step(request),
  readDesign: (api, request) => api.readDesign(request),
  writeDesign: (api, request) => api.writeDesign(request.design, request.name),
  readLink: (api, request) => api.readLink(request),
  writeLink: (api, request) => api.writeLink(request),
  ranges: (api, request) => rangeWork.slice(api, request),
  nearest: (api, request, report) => api.nearest(request, report),
  makeItFit: (api, request, report) => api.makeItFit(request, report),
  file: (api, request, report) => api.file(request, report),
  sheets: (api, request) => api.sheets(request),
  sheet: (api, { wish, fonts }) => api.sheet(wish, fonts.regular, fonts.medium),
  demoShop: (api) => ({ ok: api.demoShop() }),
  readShop: (api, request) => api.readShop(request),
  readOrder: (api, request) => api.readOrder(request),
  order: (api, request) => api.order(request),
  quote: (api, request) => api.quote(request),
  plan: (api, request, report) => api.plan(request, report),
  sets: (api, request, report) => api.sets(request, report),
  planFile: (api, request, report) => api.planFile(request, report),
  tornado: (api, request, report) => api.tornado(request, report),
  readShowroom: (api, request) => api.readShowroom(request),
  offerOf: (api, request) => api.offerOf(request),
  lookAt: (api, request) => api.lookAt(request),
  publishShowroom: (api, request) => api.publishShowroom(request),
  writeToldLink: (api, request) => api.writeToldLink(request),
  checkIn: (api, request) => api.checkIn(request),
});

/**
 * Serves the page's questions with the core, one message each.
 *
 * A trap inside the core leaves its memory in doubt, so it is told as `broken` and the page starts anew.
 * @param {DedicatedWorkerGlobalScope} scope
 * @param {Promise<Api>} loading
 */
export function serve(scope, loading) {
  /** @param {Reply} reply @param {Transferable[]} [moved] */
  const post = (reply, moved = []) => scope.postMessage(reply, moved);
  loading.then(
    () => post({ ready: true }),
    (why) => post({ broken: String(why) }),
  );
  scope.addEventListener('message', async (event) => {
    const { id, call, request } = /** @type {Question} */ (event.data);
    if (!Object.hasOwn(calls, call ?? '')) return;
    try {
      const api = await loading;
      const answer = calls[call](api, request, (done, total, words) => post({ id, progress: { done, total, words } }));
      post({ id, answer: /** @type {any} */ (answer) }, buffersOf(answer));
    } catch (why) {
      post({ id, broken: String(why) });
    }
  });
}

/**
 * Bytes of a made file are handed over, not copied.
 * @param {any} answer
 * @returns {Transferable[]}
 */
function buffersOf(answer) {
  const bytes = answer?.ok?.bytes;
  return bytes instanceof Uint8Array ? [bytes.buffer] : [];
}
