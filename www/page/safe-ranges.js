import { debounce, el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { Job } from './job.js';
import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Run } from './job.js' */
/** @import { Design, SafeRange } from './messages.d.ts' */

/** The knobs have come to rest when none was turned for so long, ms. */
const REST = 250;
/** A search that takes longer shows how far it is, ms. */
const PATIENCE = 1500;
/** How long one slice may keep the worker from other questions, ms. */
const SLICE = 10;

/**
 * Asks for the safe ranges of all knobs while nothing else is to be computed; what belongs to an older design is let go. Stopped, it
 * leaves what was found: that holds.
 * @extends {Emitter<{ found: { ranges: SafeRange[], failing: number } }>}
 */
export class SafeRanges extends Emitter {
  #bridge;
  #state = el('p', { class: 'unseen', role: 'status' });
  #job = new Job(say('ranges_making'), (words) => setText(this.#state, words), PATIENCE);
  container = el('div', { class: 'ranges-job' }, this.#job.container, this.#state);
  /** How many ranges there are to be found. */
  #knobs = 0;
  #isWanted = false;
  /** @type {{ design: Design, shop?: unknown }} */
  #around = { design: {} };
  #soon = debounce(REST, () => this.#begin());

  /** @param {Bridge} bridge */
  constructor(bridge) {
    super();
    this.#bridge = bridge;
  }

  /** The design has changed: what is under way is of no use any more. */
  stop() {
    this.#isWanted = false;
    this.#job.giveWay();
  }

  /**
   * Looks for the ranges around a design that is on screen.
   * @param {Design} design @param {unknown} shop whose cutters count @param {number} knobs how many there are
   */
  start(design, shop, knobs) {
    this.stop();
    this.#around = { design, shop };
    this.#knobs = knobs;
    this.#isWanted = true;
    this.#soon();
  }

  #begin() {
    // What it is about has changed while the knobs came to rest.
    if (this.#isWanted) this.#job.run('', (run) => this.#search(run));
  }

  /** @param {Run} run */
  async #search({ signal, report }) {
    const around = this.#around;
    let found = 0;
    for (let done = false; !done; ) {
      const answer = await this.#bridge.ask('ranges', { ...around, ms: SLICE });
      if (signal.aborted || answer.error) return;
      done = answer.ok.done;
      found += answer.ok.ranges.length;
      report({ done: found, total: this.#knobs, words: say('ranges_making') });
      if (answer.ok.ranges.length > 0) this.emit('found', answer.ok);
    }
  }
}
