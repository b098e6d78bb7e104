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

/**
 * The way to the worker: one question is out at a time, the others wait in line.
 * If the worker dies, the question that killed it is refused, a new worker is started, and this is told.
 * @extends {Emitter<{ restarted: string, lost: string }>}
 */
export class Bridge extends Emitter {
  #worker = this.#start();
  /** @type {Waiting[]} */
  #line = [];
  /** @type {Waiting | undefined} */
  #out;
  #ids = 0;
  /** @type {number[]} */
  #deaths = [];

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
      this.#line.push({ id: ++this.#ids, call, request, settle, report });
      this.#next();
    });
  }

  /** Ends the worker for good. */
  end() {
    this.#worker.terminate();
  }

  #next() {
    if (this.#out) return;
    this.#out = this.#line.shift();
    if (!this.#out) return;
    const { id, call, request } = this.#out;
    this.#worker.postMessage({ id, call, request });
  }

  #start() {
    const worker = startWorker();
    worker.addEventListener('message', (event) => this.#hear(event.data));
    worker.addEventListener('error', (event) => {
      event.preventDefault();
      this.#bury(event.message || say('worker_silent'));
    });
    worker.addEventListener('messageerror', () => this.#bury(say('worker_silent')));
    // Before any question, so that every answer is in the page's language.
    if (speech.core !== undefined) worker.postMessage({ speak: speech.core });
    return worker;
  }

  /** @param {Reply} reply */
  #hear(reply) {
    if ('broken' in reply) this.#bury(reply.broken);
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

  /** @param {string} why */
  #bury(why) {
    this.#worker.terminate();
    const now = performance.now();
    this.#deaths = [...this.#deaths.filter((then) => now - then < HEALTHY_AFTER), now];
    const over = this.#deaths.length >= DEATHS;
    if (over) this.#line.length = 0;
    else this.#worker = this.#start();
    this.emit(over ? 'lost' : 'restarted', why);
    this.#finish({ error: { where: 'worker', why: say('worker_died', { why }) } });
  }
}

/** A worker has no words of its own: what stopped it is put into a sentence here. @param {any} answer */
function worded(answer) {
  const { where, why } = answer?.error ?? {};
  return where === 'papers' ? { error: { where, why: say('papers_lost', { why }) } } : answer;
}
