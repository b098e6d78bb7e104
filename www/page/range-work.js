/** @import { Steps } from './worker-core.js' */
/** @import { Answer, Design, RangesSlice } from './messages.d.ts' */

/** @typedef {{ step(trials: number): RangesSlice, free(): void }} Search */

/**
 * Runs the search for safe ranges in slices, one for each question, so that a new design never waits long.
 * The search of an older design is dropped.
 */
export class RangeWork {
  /** @type {Search | undefined} */
  #search;
  #key = '';

  /**
   * @param {Steps} api
   * @param {{ design: Design, shop?: unknown, ms: number }} request how long the slice may take
   * @returns {Answer<RangesSlice>}
   */
  slice(api, { ms, ...around }) {
    const key = JSON.stringify(around);
    if (key !== this.#key || !this.#search) {
      this.#drop();
      const begun = /** @type {Answer<Search>} */ (api.ranges(around));
      if (begun.error) return begun;
      [this.#search, this.#key] = [begun.ok, key];
    }
    const slice = this.#run(this.#search, ms);
    if (slice.done) this.#drop();
    return { ok: slice };
  }

  /** @param {Search} search @param {number} ms */
  #run(search, ms) {
    const until = performance.now() + ms;
    /** @type {RangesSlice['ranges']} */
    const ranges = [];
    for (;;) {
      const slice = search.step(1);
      ranges.push(...slice.ranges);
      if (slice.done || performance.now() >= until) return { ...slice, ranges };
    }
  }

  #drop() {
    this.#search?.free();
    this.#search = undefined;
  }
}
