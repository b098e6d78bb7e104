import { debounce, el, setText } from './dom.js';
import { standsAtFoot } from './first.js';
import { keepLow } from './foot.js';
import { money, number, wholeLength } from './format.js';
import { lengths } from './length.js';
import { say } from './words.js';

/** @import { Finding, Report } from './messages.d.ts' */

/** Long enough that a drag is told once, when it rests. */
const REST = 900;

/** The title block at the foot of the sheet: overall sizes, checks and price, always in view. */
export class Summary {
  /** @type {Map<string, HTMLElement>} */
  #cells = new Map();
  #spoken = el('p', { class: 'unseen', 'aria-live': 'polite' });
  #words = '';
  #busy = false;
  #tell = debounce(REST, () => !this.#busy && setText(this.#spoken, this.#words));

  #list = el('dl', { class: 'cells' });

  /** @param {HTMLElement} container */
  constructor(container) {
    this.container = container;
    for (const key of /** @type {const} */ (['size', 'width', 'depth', 'height', 'seat', 'mass', 'parts', 'verdict', 'price'])) {
      const value = el('dd', {});
      this.#cells.set(key, value);
      this.#list.append(el('div', { class: `cell cell-${key}` }, el('dt', { text: say(key) }), value));
    }
    if (!standsAtFoot()) this.#stand();
    keepLow(this.container);
  }

  #stand() {
    if (!this.#list.isConnected) this.container.replaceChildren(this.#list, this.#spoken);
  }

  /** @param {Report} report */
  update({ overall, bill, findings, sound }) {
    const mm = (/** @type {number} */ value) => wholeLength(value, true);
    const price = bill ? money(bill.total_minor, bill) : say('no_price');
    const verdict = verdictOf(findings, sound);
    this.#set('size', [overall.width, overall.depth, overall.height].map((value) => wholeLength(value)).join(' × '));
    this.#set('width', mm(overall.width));
    this.#set('depth', mm(overall.depth));
    this.#set('height', mm(overall.height));
    this.#set('seat', mm(overall.seat_height));
    this.#set('mass', `${number(overall.mass_kg, 1)} ${say('unit_kg')}`);
    this.#set('parts', overall.pegs ? say('parts_and_pegs', { parts: overall.parts, pegs: overall.pegs }) : number(overall.parts, 0));
    this.#set('verdict', verdict.words);
    this.#set('price', price);
    const cell = this.#cells.get('verdict');
    cell?.setAttribute('data-verdict', verdict.worst);
    cell?.parentElement?.toggleAttribute('hidden', findings.length + sound === 0);
    this.#stand();
    const [width, depth, height] = [overall.width, overall.depth, overall.height].map((value) => wholeLength(value));
    this.#words = say('summary_says', { price, width: width ?? '', depth: depth ?? '', height: height ?? '', unit: say(`lengths_name_${lengths.unit}`).toLowerCase(), verdict: verdict.words });
    this.#tell();
  }

  /** Sizes and price of an earlier moment are marked as such, and not said aloud. @param {boolean} busy */
  busy(busy) {
    this.#busy = busy;
    if (!busy) this.#tell();
    this.container.setAttribute('aria-busy', String(busy));
  }

  /** @param {string} key @param {string} text */
  #set(key, text) {
    const cell = this.#cells.get(key);
    if (cell) setText(cell, text);
  }
}

/** @param {Finding[]} findings @param {number} sound how many are sound, among them or not */
function verdictOf(findings, sound) {
  for (const worst of /** @type {const} */ (['fails', 'close'])) {
    const count = findings.filter(({ verdict }) => verdict === worst).length;
    if (count > 0) return { worst, words: say(`verdict_${worst}`, { count }) };
  }
  return { worst: 'sound', words: findings.length + sound > 0 ? say('verdict_sound') : say('bare') };
}
