import { Emitter } from './emitter.js';
import { startWorker } from './start-worker.js';
import { say, speech } from './words.js';

/** @import { Call, Calls, Progress, Reply } from './messages.d.ts' */

/**
 * @typedef {object} Waiting
 * @property {number} id
 * @property {Call} call
 * @property {unknown} request
 * @property {(answer: any) => void} settle
 * @property {((progress: Progress) => void) | undefined} report
 */

/** More deaths than this within `HEALTHY_AFTER` are told as an end: starting again does not help. */
const DEATHS = 3;
const HEALTHY_AFTER = 20_000;
/** How long is waited before a core that did not load is loaded again, in milliseconds; after the last of them it is told as an end. */
const AGAIN_AFTER = [300, 1500];

/**
 * The way to the worker: one question is out at a time, the others wait in line.
 * If the worker dies, the question that killed it is refused, a new worker is started, and this is told. A worker that does not
 * come so far as to hear a question, as where the network is cut, is started again without a word, and the question waits.
 * @extends {Emitter<{ restarted: string, lost: string }>}
 */
export class Bridge extends Emitter {
  /** @type {Waiting[]} */
  #line = [];
  /** @type {Waiting | undefined} */
  #out;
  #ids = 0;
  /** @type {number[]} */
  #deaths = [];
  /** How often in a row the core did not load, and whether it has. */
  #unloaded = 0;
  #loaded = false;
  /** Why no worker is started any more. @type {string | undefined} */
  #lost;
  /** @type {Worker | undefined} absent while none runs */
  #worker;

  constructor() {
    super();
    this.#start();
  }

  /** Whether nothing is out or in line. */
  get idle() {
    return !this.#out && this.#line.length === 0;
  }

  /**
   * @template {Call} Name
   * @param {Name} call
   * @param {Calls[Name]['request']} request
   * @param {(progress: Progress) => void} [report]
   * @returns {Promise<Calls[Name]['answer']>}
   */
  ask(call, request, report) {
    return new Promise((settle) => {
      if (this.#lost !== undefined) return settle(dead(this.#lost));
      this.#line.push({ id: ++this.#ids, call, request, settle, report });
      this.#next();
    });
  }

  /** Ends the worker for good. */
  end() {
    this.#lost = '';
    this.#worker?.terminate();
  }

  /** Starts anew after an end was told. */
  revive() {
    if (this.#lost === undefined) return;
    [this.#lost, this.#deaths, this.#unloaded] = [undefined, [], 0];
    this.#start();
  }

  #next() {
    if (this.#out) return;
    this.#out = this.#line.shift();
    this.#post();
  }

  #post() {
    if (!this.#out || !this.#worker) return;
    const { id, call, request } = this.#out;
    this.#worker.postMessage({ id, call, request });
  }

  #start() {
    if (this.#lost !== undefined) return;
    this.#loaded = false;
    try {
      this.#worker = startWorker();
    } catch (why) {
      // Where workers are forbidden some browsers say so at once. Whoever made this bridge hears it when it listens.
      setTimeout(() => this.#bury(why instanceof DOMException ? say('worker_forbidden') : String(why), why));
      return;
    }
    const worker = this.#worker;
    // What a worker says after its end is not heard.
    const alive = () => worker === this.#worker;
    worker.addEventListener('message', (event) => alive() && this.#hear(event.data));
    worker.addEventListener('error', (event) => {
      event.preventDefault();
      if (alive()) this.#bury(event.message || say('worker_silent'));
    });
    worker.addEventListener('messageerror', () => alive() && this.#bury(say('worker_silent')));
    // Before any question, so that every answer is in the page's language.
    if (speech.core !== undefined) worker.postMessage({ speak: speech.core });
    this.#post();
  }

  /** @param {Reply} reply */
  #hear(reply) {
    if ('ready' in reply) [this.#loaded, this.#unloaded] = [true, 0];
    else if ('broken' in reply) this.#bury(reply.broken);
    else if ('progress' in reply) this.#out?.report?.(reply.progress);
    else if ('answer' in reply && reply.id === this.#out?.id) this.#finish(worded(reply.answer));
  }

  /** @param {unknown} answer */
  #finish(answer) {
    const done = this.#out;
    this.#out = undefined;
    done?.settle(answer);
    this.#next();
  }

  /** @param {string} why @param {unknown} [thrown] for those who look into the console */
  #bury(why, thrown) {
    this.#worker?.terminate();
    this.#worker = undefined;
    if (thrown) console.info(thrown);
    if (this.#loaded) this.#replace(why);
    else this.#loadAgain(why);
  }

  /** @param {string} why the question that was out, or the core behind it, stopped a worker that had heard it */
  #replace(why) {
    const now = performance.now();
    this.#deaths = [...this.#deaths.filter((then) => now - then < HEALTHY_AFTER), now];
    if (this.#deaths.length >= DEATHS) return this.#giveUp(why);
    this.#start();
    this.emit('restarted', why);
    this.#finish(dead(why));
  }

  /** @param {string} why the core did not load */
  #loadAgain(why) {
    const pause = AGAIN_AFTER[this.#unloaded++];
    if (pause === undefined) this.#giveUp(why);
    else setTimeout(() => this.#start(), pause);
  }

  /** @param {string} why */
  #giveUp(why) {
    this.#lost = why;
    this.emit('lost', why);
    const all = [...(this.#out ? [this.#out] : []), ...this.#line];
    this.#out = undefined;
    this.#line.length = 0;
    for (const { settle } of all) settle(dead(why));
  }
}

/** What a question is answered that a worker did not outlive. @param {string} why */
function dead(why) {
  return { error: { where: 'worker', why: say('worker_died', { why }) } };
}

/** A worker has no words of its own: what stopped it is put into a sentence here. @param {any} answer */
function worded(answer) {
  const { where, why } = answer?.error ?? {};
  return where === 'papers' ? { error: { where, why: say('papers_lost', { why }) } } : answer;
}
