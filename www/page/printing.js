import { byId, el, setText } from './dom.js';
import { say, speech } from './words.js';

/** The head of the printed parts list; the rest of the sheet is the page itself in its print style. */
export class Printing {
  #title = el('p', { class: 'print-title' });
  /** How the picture is drawn for paper: in ink, for a frame of this size in CSS pixels. */
  picture = /** @type {const} */ ({ scheme: 'light', letters: true, width: 700, height: 317 });
  #made = el('p', { class: 'print-made' });

  /** @param {HTMLElement} container */
  constructor(container) {
    this.container = container;
    container.append(el('p', { class: 'print-kind', text: say('print_title') }), this.#title, this.#made);
  }

  /** @param {string} name */
  update(name) {
    setText(this.#title, name || say('design_unnamed'));
    const date = new Intl.DateTimeFormat(speech.language, { dateStyle: 'long' }).format(new Date());
    setText(this.#made, say('print_made', { date }));
  }
}

/** Waits until the browser has laid out what was just put on the page. */
export function laidOut() {
  return new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
}

/** @type {() => void} */
let tellReady = () => {};
/** Settles when the first chair is on screen. */
export const ready = new Promise((settle) => (tellReady = () => settle(undefined)));

/** Marks the page as ready for those who wait for it, people and tests. */
export function markReady() {
  document.documentElement.dataset.ready = '';
  byId('loading').hidden = true;
  tellReady();
}
