import { debounce } from './dom.js';
import { Emitter } from './emitter.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Design, SafeRange } from './messages.d.ts' */

/** The knobs have come to rest when none was turned for so long, ms. */
const REST = 250;
/** How long one slice may keep the worker from other questions, ms. */
const SLICE = 10;

/**
 * Asks for the safe ranges of all knobs while nothing else is to be computed; what belongs to an older design is let go.
 * @extends {Emitter<{ found: { ranges: SafeRange[], failing: number }, done: null }>}
 */
export class SafeRanges extends Emitter {
  #bridge;
  /** Counts the designs; an answer to an older number is stale. */
  #search = 0;
  /** @type {{ design: Design, shop?: unknown }} */
  #around = { design: {} };
  #begin = debounce(REST, () => this.#run(this.#search));

  /** @param {Bridge} bridge */
  constructor(bridge) {
    super();
    this.#bridge = bridge;
  }

  /** The design has changed: what is under way is of no use any more. */
  stop() {
    this.#search += 1;
  }

  /** Looks for the ranges around a design that is on screen. @param {Design} design @param {unknown} shop whose cutters count */
  start(design, shop) {
    this.stop();
    this.#around = { design, shop };
    this.#begin();
  }

  /** @param {number} search */
  async #run(search) {
    const around = this.#around;
    for (let done = false; !done; ) {
      if (search !== this.#search) return;
      const answer = await this.#bridge.ask('ranges', { ...around, ms: SLICE });
      if (search !== this.#search || answer.error) return;
      done = answer.ok.done;
      if (answer.ok.ranges.length > 0) this.emit('found', answer.ok);
    }
    this.emit('done', null);
  }
}
