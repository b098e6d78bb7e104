import { Emitter } from './emitter.js';
import { MOST_KEPT, read, written } from './shelf.js';
import { canKeep, keep, kept, NAMES, setAside } from './store.js';

/** @import { Kept } from './shelf.js' */

/** Its name in this browser. */
const KEY = 'shelf';

/**
 * The shelf as this browser keeps it. It is read anew before each change, so that two tabs never undo each other's work.
 * @extends {Emitter<{ corrupt: { key: string }, changed: null }>}
 */
export class ShelfStore extends Emitter {
  /** @type {Kept[] | undefined} what could not be kept: it lasts as long as the page */
  #loose;

  constructor() {
    super();
    addEventListener('storage', ({ key }) => key === NAMES + KEY && this.emit('changed', null));
  }

  /** Whether the shelf lasts only as long as the page is open. */
  get isLoose() {
    return this.#loose !== undefined;
  }

  /** @returns {Kept[]} */
  all() {
    if (this.#loose) return this.#loose;
    const text = kept(KEY);
    if (text === null) return [];
    try {
      return read(text);
    } catch {
      this.emit('corrupt', { key: setAside(KEY) });
      return [];
    }
  }

  /**
   * @param {(shelf: Kept[]) => Kept[]} change
   * @returns {'kept' | 'loose' | 'many' | 'full'} what came of it: `many` and `full` changed nothing; `loose` lasts as long as the page
   */
  change(change) {
    const before = this.all();
    const after = change(before);
    if (after.length > MOST_KEPT && after.length > before.length) return 'many';
    if (!this.#loose && keep(KEY, written(after))) return 'kept';
    // A browser that keeps nothing at all is told from one whose room is used up.
    if (!this.#loose && canKeep()) return 'full';
    this.#loose = after;
    return 'loose';
  }
}
