import { Emitter } from './emitter.js';
import { keep, kept } from './store.js';

/** @typedef {'system' | 'light' | 'dark'} Choice */

/**
 * Light or dark: as the device says, or as chosen here.
 * @extends {Emitter<{ change: 'light' | 'dark' }>}
 */
export class Scheme extends Emitter {
  #device = matchMedia('(prefers-color-scheme: dark)');
  /** @type {Choice} */
  #choice = choiceOf(kept('scheme'));

  constructor() {
    super();
    this.#device.addEventListener('change', () => this.#apply());
    this.#apply();
  }

  get choice() {
    return this.#choice;
  }

  /** @returns {'light' | 'dark'} what is on screen */
  get shown() {
    if (this.#choice !== 'system') return this.#choice;
    return this.#device.matches ? 'dark' : 'light';
  }

  /** @param {string} choice @param {{ stays?: boolean }} [options] whether this browser remembers it */
  choose(choice, { stays = true } = {}) {
    this.#choice = choiceOf(choice);
    if (stays) keep('scheme', this.#choice);
    this.#apply();
  }

  #apply() {
    document.documentElement.dataset.scheme = this.shown;
    this.emit('change', this.shown);
  }
}

/** @param {string | null} text @returns {Choice} */
function choiceOf(text) {
  return text === 'light' || text === 'dark' ? text : 'system';
}
