import { RangeWork } from './range-work.js';

/** @import { Call, Question, Reply } from './messages.d.ts' */
/** @import * as steps from './crestrail.js' */
/** @import * as papers from './papers.js' */

/** @typedef {(done: number, total: number, words: string) => void} Report */
/** @typedef {typeof steps} Steps */
/** @typedef {typeof papers} Papers */
/** @typedef {{ steps: Promise<Steps>, papers: () => Promise<Papers> }} Core its two parts, the second loaded when it is asked for */

const rangeWork = new RangeWork();

/** One entry for each call the page may make while somebody chooses a chair. */
const stepCalls = /** @type {Partial<Record<Call, (api: Steps, request: any, report: Report) => unknown>>} */ ({
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
  demoShop: (api) => ({ ok: api.demoShop() }),
  readShop: (api, request) => api.readShop(request),
  readShowroom: (api, request) => api.readShowroom(request),
  offerOf: (api, request) => api.offerOf(request),
  lookAt: (api, request) => api.lookAt(request),
  writeToldLink: (api, request) => api.writeToldLink(request),
});

/** One entry for each call that makes papers. */
const paperCalls = /** @type {Partial<Record<Call, (api: Papers, request: any, report: Report) => unknown>>} */ ({
  file: (api, request, report) => api.file(request, report),
  shapes: (api, request) => api.shapes(request),
  exchange: (api, request) => api.exchange(request),
  work: (api, request) => api.work(request),
  workPages: (api, { wish, fonts }) => api.workPages(wish, fonts.regular, fonts.medium),
  sheets: (api, request) => api.sheets(request),
  sheet: (api, { wish, fonts }) => api.sheet(wish, fonts.regular, fonts.medium),
  benchBook: (api, { wish, fonts }, report) => api.benchBook(wish, report, fonts.regular, fonts.medium),
  readOrder: (api, request) => api.readOrder(request),
  order: (api, request) => api.order(request),
  quote: (api, request) => api.quote(request),
  quotePdf: (api, { asked, fonts }) => api.quotePdf(asked, fonts.regular, fonts.medium),
  readAttached: (api, request) => api.readAttached(request),
  plan: (api, request, report) => api.plan(request, report),
  sets: (api, request, report) => api.sets(request, report),
  planFile: (api, request, report) => api.planFile(request, report),
  tornado: (api, request, report) => api.tornado(request, report),
  publishShowroom: (api, request) => api.publishShowroom(request),
  checkIn: (api, request) => api.checkIn(request),
});

/**
 * Serves the page's questions with the core, one message each.
 *
 * A trap inside the core leaves its memory in doubt, so it is told as `broken` and the page starts anew. What makes papers
 * may fail to load where the network is cut: then the question is refused, and the next one tries again.
 * @param {DedicatedWorkerGlobalScope} scope
 * @param {Core} core
 */
export function serve(scope, core) {
  /** @param {Reply} reply @param {Transferable[]} [moved] */
  const post = (reply, moved = []) => scope.postMessage(reply, moved);
  core.steps.then(
    () => post({ ready: true }),
    (why) => post({ broken: String(why) }),
  );
  /** @type {Promise<Papers> | undefined} */
  let papers;
  const loaded = () => {
    papers ??= core.papers();
    papers.catch(() => (papers = undefined));
    return papers;
  };
  /** The core's texts in the language of the page; each part of the core is told them once. @type {string | undefined} */
  let catalogue;
  const told = new Set();
  /** @template {Steps | Papers} Api @param {Api} api */
  const speaking = (api) => {
    if (catalogue === undefined || told.has(api)) return api;
    told.add(api);
    const { error } = /** @type {any} */ (api.speak(catalogue));
    if (error) throw new Error(`${error.where}: ${error.why}`);
    return api;
  };
  scope.addEventListener('message', async (event) => {
    if (typeof event.data.speak === 'string') return void (catalogue = event.data.speak);
    const { id, call, request } = /** @type {Question} */ (event.data);
    if (!Object.hasOwn(stepCalls, call ?? '') && !Object.hasOwn(paperCalls, call ?? '')) return;
    /** @type {Report} */
    const report = (done, total, words) => post({ id, progress: { done, total, words } });
    try {
      const answer = stepCalls[call] ? stepCalls[call](speaking(await core.steps), request, report) : await onPaper(() => loaded().then(speaking), call, request, report);
      post({ id, answer: /** @type {any} */ (answer) }, buffersOf(answer));
    } catch (why) {
      post({ id, broken: String(why) });
    }
  });
}

/**
 * @param {() => Promise<Papers>} loaded
 * @param {Call} call
 * @param {any} request
 * @param {Report} report
 */
async function onPaper(loaded, call, request, report) {
  /** @type {Papers} */
  let api;
  try {
    api = await loaded();
  } catch (why) {
    return { error: { where: 'papers', why: String(why) } };
  }
  return paperCalls[call]?.(api, request, report);
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
