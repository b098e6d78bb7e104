import { el, setText } from './dom.js';
import { say } from './words.js';

/** @import { Progress } from './messages.d.ts' */

/**
 * @typedef {object} Run one run of a job
 * @property {AbortSignal} signal aborted when it is stopped
 * @property {(progress: Progress) => void} report
 */

/** Those that run, the latest last. @type {Job[]} */
const running = [];

addEventListener('keydown', (event) => {
  if (event.key !== 'Escape' || event.defaultPrevented || event.isComposing) return;
  const shown = running.filter((one) => one.isShown);
  // What somebody began comes before what began by itself.
  const job = shown.findLast(({ isWished }) => isWished) ?? shown.at(-1);
  if (!job) return;
  // The dialog in which it runs stays open.
  event.preventDefault();
  job.stop();
});

/** What stands above the page, and takes Escape for itself. */
const ABOVE = 'dialog[open], :popover-open';

/**
 * The control of whatever takes long, everywhere the same: how far it is, and a button that stops it, which Escape does too. It tells
 * in a live region of its owner's what is being done and that it was stopped; what came of it the owner tells.
 */
export class Job {
  #tell;
  #bar;
  #how = el('span', { class: 'job-how' });
  #stop = el('button', { type: 'button', class: 'plain-button', text: say('stop'), 'aria-keyshortcuts': 'Escape', onclick: () => this.stop() });
  container;
  /** @type {AbortController | undefined} of the present run */
  #run;
  /** What had the focus when it began. @type {Element | null} */
  #from = null;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #timer;
  #wait;

  /**
   * @param {string} name of what is worked out
   * @param {(words: string) => void} tell puts words into a live region
   * @param {number} [wait] how long it may take before its control is shown, ms: what begins by itself and is mostly quick shows none
   */
  constructor(name, tell, wait = 0) {
    this.#tell = tell;
    this.#wait = wait;
    this.#bar = el('progress', { max: '1', 'aria-label': name });
    this.container = el('div', { class: 'job', hidden: true }, this.#bar, this.#stop, this.#how);
  }

  get runs() {
    return this.#run !== undefined;
  }

  /** Whether somebody begins it, not the page by itself. */
  get isWished() {
    return this.#wait === 0;
  }

  /** Whether somebody can see it, and nothing stands above it. */
  get isShown() {
    const above = [...document.querySelectorAll(ABOVE)].at(-1);
    return this.container.checkVisibility() && (!above || above.contains(this.container));
  }

  /**
   * Begins anew; an earlier run gives way without a word.
   * @template Made
   * @param {string} words what is being done
   * @param {(run: Run) => Promise<Made>} work
   * @returns {Promise<Made | undefined>} undefined where it was stopped, or has given way
   */
  async run(words, work) {
    this.giveWay();
    const run = (this.#run = new AbortController());
    this.#begin(words);
    const report = (/** @type {Progress} */ progress) => run === this.#run && this.#report(progress);
    try {
      const made = await work({ signal: run.signal, report });
      return run === this.#run ? made : undefined;
    } finally {
      if (run === this.#run) this.#end();
    }
  }

  /** Somebody stops it. */
  stop() {
    if (!this.#run) return;
    this.giveWay();
    this.#tell(say('stopped'));
  }

  /** What it is about is no longer asked. */
  giveWay() {
    const run = this.#run;
    if (!run) return;
    this.#end();
    run.abort();
  }

  /** @param {string} words */
  #begin(words) {
    running.push(this);
    this.#from = document.activeElement;
    this.#bar.removeAttribute('value');
    setText(this.#how, '');
    this.#tell(words);
    if (this.#wait === 0) this.container.hidden = false;
    else this.#timer = setTimeout(() => (this.container.hidden = false), this.#wait);
  }

  /** @param {Progress} progress */
  #report({ done, total, words }) {
    if (total > 0) this.#bar.value = done / total;
    setText(this.#how, words);
  }

  #end() {
    this.#run = undefined;
    running.splice(running.indexOf(this), 1);
    clearTimeout(this.#timer);
    const hadFocus = this.#stop === document.activeElement;
    this.container.hidden = true;
    // Whoever stopped it by keyboard goes on from where it was begun.
    if (hadFocus && this.#from instanceof HTMLElement) this.#from.focus({ preventScroll: true });
    this.#from = null;
  }
}
