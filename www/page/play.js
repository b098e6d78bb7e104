import { el, setText } from './dom.js';
import { say } from './words.js';

/** @import { View } from './messages.d.ts' */
/** @import { Session } from './session.js' */

/** How long one step takes, and how long it rests before the next, ms. */
const STEP = 1100;
const REST = 450;
/** How long taking it apart takes before, ms. */
const APART = 900;

/**
 * Shows the chair going together, step after step in the order of assembly. Where motion is not wanted each press shows the next
 * step, at once.
 */
export class Play {
  #around;
  #steps = 0;
  /** @type {string[]} */
  #titles = [];
  /** @type {number | undefined} */
  #frame;
  /** @type {number | undefined} how many steps are done */
  #done;
  #spread = 0;
  button = el('button', { type: 'button', class: 'plain-button play-button', text: '▶', disabled: true, onclick: () => this.#press() });

  /** @param {{ look: (change: Parameters<Session['look']>[0]) => void, say: (words: string) => void }} around */
  constructor(around) {
    this.#around = around;
    this.#name();
  }

  /** @param {number} steps of the chair shown @param {string[] | undefined} titles of the steps @param {View} view */
  update(steps, titles, view) {
    this.#steps = steps;
    if (titles) this.#titles = titles;
    this.#spread = view.spread;
    this.button.disabled = steps === 0;
    // Somebody has taken it apart or together by hand.
    if (this.#done !== undefined && this.#done > 0 && view.assembled === undefined) this.#end();
  }

  get #calm() {
    return matchMedia('(prefers-reduced-motion: reduce)').matches;
  }

  #press() {
    if (this.#calm) return this.#next();
    if (this.#done !== undefined) return this.#stop();
    this.#begin();
  }

  #next() {
    const done = this.#done === undefined ? 0 : this.#done + 1;
    if (done >= this.#steps) return this.#stop();
    this.#show(done);
    this.#name();
  }

  #begin() {
    const [start, from] = [performance.now(), this.#spread];
    const apart = APART * (1 - from);
    this.#done = 0;
    this.#name();
    const step = (/** @type {number} */ now) => {
      const since = now - start;
      if (since < apart) this.#around.look({ spread: from + (1 - from) * eased(since / apart), assembled: undefined });
      else if (!this.#at(since - apart)) return this.#stop();
      this.#frame = requestAnimationFrame(step);
    };
    this.#frame = requestAnimationFrame(step);
  }

  /** @param {number} since the first step began, ms @returns {boolean} whether there is more to come */
  #at(since) {
    const round = STEP + REST;
    const whole = Math.floor(since / round);
    if (whole >= this.#steps) return false;
    this.#show(whole + eased(Math.min(1, (since - whole * round) / STEP)));
    return true;
  }

  /** @param {number} done */
  #show(done) {
    this.#done = done;
    const number = Math.min(this.#steps, Math.floor(done) + 1);
    const title = this.#titles[number - 1];
    this.#around.say(title ? say('play_step', { number, count: this.#steps, title }) : say('play_step_alone', { number, count: this.#steps }));
    this.#around.look({ assembled: done });
  }

  #stop() {
    this.#end();
    this.#around.look({ assembled: undefined, spread: 0 });
  }

  #end() {
    if (this.#frame !== undefined) cancelAnimationFrame(this.#frame);
    this.#frame = this.#done = undefined;
    this.#around.say('');
    this.#name();
  }

  #name() {
    const plays = this.#done !== undefined;
    const words = say(!plays ? 'play' : this.#calm ? 'play_next' : 'play_stop');
    setText(this.button, plays && !this.#calm ? '■' : '▶');
    this.button.setAttribute('aria-label', words);
    this.button.title = words;
  }
}

/** @param {number} share */
function eased(share) {
  return share * share * (3 - 2 * share);
}
