import { el } from './dom.js';
import { say } from './words.js';

/** How long a notice stays that asks for nothing, in milliseconds; one that tells of trouble stays until closed. */
const STAY = 9000;

/** @typedef {{ words: string, act: () => void }} Action */

/** Short messages at the edge of the sheet: what was done, with a way back; what went wrong. */
export class Notices {
  /** @type {Map<string, HTMLElement>} */
  #shown = new Map();

  /** @param {HTMLElement} container a live region */
  constructor(container) {
    this.container = container;
    new ResizeObserver(() => this.#keepClear()).observe(container);
    // The last one is put away from wherever the focus is: it may cover just that (WCAG 2.2, 2.4.11).
    addEventListener('keydown', (event) => event.key === 'Escape' && !event.defaultPrevented && this.#closeLast());
  }

  /**
   * @param {string} key a later notice with the same key takes its place
   * @param {string} words
   * @param {{ action?: Action, stays?: boolean }} [options]
   */
  tell(key, words, { action, stays = false } = {}) {
    this.close(key);
    const notice = el(
      'div',
      { class: `notice${stays ? ' notice-stays' : ''}` },
      el('p', { text: words }),
      action ? el('button', { type: 'button', class: 'plain-button', text: action.words, onclick: () => this.#act(key, action) }) : null,
      el('button', { type: 'button', class: 'close-button', text: '×', 'aria-label': say('dismiss'), onclick: () => this.close(key) }),
    );
    this.#shown.set(key, notice);
    this.container.append(notice);
    if (!stays) this.#leave(key, notice);
  }

  /** @param {string} key */
  close(key) {
    this.#shown.get(key)?.remove();
    this.#shown.delete(key);
  }

  #closeLast() {
    const last = [...this.#shown.keys()].at(-1);
    if (last !== undefined && !document.querySelector('dialog[open], [popover]:popover-open')) this.close(last);
  }

  /** Tells the sheet how much of its foot is covered: what has the focus is scrolled clear of it (WCAG 2.2, 2.4.11). */
  #keepClear() {
    const height = this.#shown.size === 0 ? 0 : this.container.getBoundingClientRect().height;
    document.documentElement.style.setProperty('--covered', `${Math.round(height)}px`);
  }

  /** @param {string} key @param {Action} action */
  #act(key, action) {
    this.close(key);
    action.act();
  }

  /** A notice that is being read or used does not go. @param {string} key @param {HTMLElement} notice */
  #leave(key, notice) {
    setTimeout(() => {
      if (this.#shown.get(key) !== notice) return;
      if (notice.matches(':hover, :focus-within')) this.#leave(key, notice);
      else this.close(key);
    }, STAY);
  }
}
