import { Emitter } from './emitter.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Answer, Stepped, StepRequest } from './messages.d.ts' */

/** Kept so that a day's work does not fill the browser's list of measures. */
const MEASURES = 2000;

/**
 * Asks for the next picture and report, the latest wins: while a step is out, later wishes only
 * add to what the next one asks for, and that one is composed when it leaves.
 * @extends {Emitter<{ busy: boolean, stepped: { answer: Answer<Stepped>, request: StepRequest } }>}
 */
export class Stepper extends Emitter {
  #bridge;
  #compose;
  #call;
  #report = false;
  #picture = false;
  #out = false;
  #measured = 0;
  /** @type {number | undefined} */
  #since;

  /**
   * @param {Bridge} bridge
   * @param {(want: StepRequest['want']) => any} compose the request from the design and view of that moment
   * @param {'step' | 'lookAt'} call which the core is asked
   */
  constructor(bridge, compose, call = 'step') {
    super();
    this.#bridge = bridge;
    this.#compose = compose;
    this.#call = call;
  }

  /** The design has changed: picture and lists are out of date. */
  design() {
    this.#since ??= performance.now();
    this.#report = this.#picture = true;
    this.#go();
  }

  /** Only the view has changed. */
  view() {
    this.#picture = true;
    this.#go();
  }

  async #go() {
    if (this.#out) return;
    const wanted = this.#report || this.#picture;
    this.emit('busy', wanted);
    if (!wanted) return;
    this.#out = true;
    const since = this.#since;
    const request = this.#compose(this.#wanted());
    const answer = /** @type {any} */ (await this.#bridge.ask(this.#call, request));
    const received = performance.now();
    this.emit('stepped', { answer, request });
    if (since !== undefined) this.#measure(since, received);
    this.#out = false;
    this.#go();
  }

  /** @returns {StepRequest['want']} */
  #wanted() {
    /** @type {StepRequest['want']} */
    const want = this.#report ? ['report', 'picture'] : ['picture'];
    this.#report = this.#picture = false;
    this.#since = undefined;
    return want;
  }

  /**
   * Measures the whole step, from its first input on, and the page's own share of it.
   * @param {number} start @param {number} received
   */
  #measure(start, received) {
    if (++this.#measured % MEASURES === 0) ['crestrail:step', 'crestrail:show'].forEach((name) => performance.clearMeasures(name));
    const end = performance.now();
    performance.measure('crestrail:step', { start, end });
    performance.measure('crestrail:show', { start: received, end });
  }
}
