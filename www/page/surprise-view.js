import { Bridge } from './bridge.js';
import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { number as figures } from './format.js';
import { madeDialog } from './made-dialog.js';
import { drawChair, MOST_NUMBER } from './surprise.js';
import { say } from './words.js';

/** @import { Design, Knob } from './messages.d.ts' */

/**
 * @typedef {object} Around what a chair is drawn from
 * @property {Design} begins
 * @property {Knob[]} knobs
 * @property {(bridge: Bridge, design: Design) => Promise<string>} fails why a design does not hold; empty where it does
 */

/**
 * Draws a chair from a number, in a worker of its own.
 * @extends {Emitter<{ drawn: { design: Design, number: number } }>}
 */
export class SurpriseView extends Emitter {
  #around;
  #number = el('input', { id: 'surprise-number', class: 'ask-field', type: 'text', inputmode: 'numeric', autocomplete: 'off', maxlength: '7' });
  #state = el('p', { class: 'ask-state', role: 'status' });
  #progress = el('progress', { max: '1', value: '0', 'aria-label': say('surprise_working'), hidden: true });
  #go = el('button', { type: 'submit', class: 'strong-button', text: say('surprise_go') });
  #stop = el('button', { type: 'button', class: 'plain-button', text: say('plan_stop'), hidden: true, onclick: () => this.#end(say('plan_stopped')) });
  #dialog;
  /** @type {Bridge | undefined} */
  #aside;

  /** @param {() => Around} around */
  constructor(around) {
    super();
    this.#around = around;
    const other = el('button', { type: 'button', class: 'plain-button', text: say('surprise_other'), onclick: () => this.#pick() });
    const form = el(
      'form',
      { class: 'checked' },
      el('p', { text: say('surprise_note') }),
      el('label', { class: 'ask-label', for: 'surprise-number' }, el('span', { text: say('surprise_number', { most: figures(MOST_NUMBER, 0) }) }), this.#number),
      el('div', { class: 'ask-acts' }, this.#go, other, this.#stop),
      this.#progress,
      this.#state,
    );
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      this.#draw();
    });
    this.#dialog = madeDialog('surprise', say('surprise'), form);
    this.#dialog.addEventListener('close', () => this.#end(''));
  }

  open() {
    this.#pick();
    this.#end('');
    if (!this.#dialog.open) this.#dialog.showModal();
    this.#go.focus();
  }

  /** Opens it and draws at once from another number. */
  again() {
    this.open();
    this.#draw();
  }

  #pick() {
    this.#number.value = String(1 + Math.floor(Math.random() * MOST_NUMBER));
  }

  async #draw() {
    if (this.#aside) return;
    const number = Number(this.#number.value.replace(/[\s.,\u00a0\u202f]/g, ''));
    if (!Number.isInteger(number) || number < 1 || number > MOST_NUMBER) return setText(this.#state, say('surprise_wrong', { most: figures(MOST_NUMBER, 0) }));
    const aside = new Bridge();
    this.#busy(aside, say('surprise_working'));
    const { begins, knobs, fails } = this.#around();
    const why = await fails(aside, begins);
    if (aside !== this.#aside) return;
    if (why) return this.#end(say('surprise_begins', { why }));
    const holds = async (/** @type {Design} */ design) => (await fails(aside, design)) === '';
    const design = await drawChair({ number, begins, knobs, holds, report: (done, total) => (this.#progress.value = done / total) });
    if (aside !== this.#aside) return;
    this.#end('');
    this.#dialog.close();
    this.emit('drawn', { design, number });
  }

  /** @param {Bridge} aside @param {string} words */
  #busy(aside, words) {
    this.#aside = aside;
    this.#progress.value = 0;
    this.#progress.hidden = this.#stop.hidden = false;
    this.#go.setAttribute('aria-disabled', 'true');
    setText(this.#state, words);
  }

  /** @param {string} words */
  #end(words) {
    this.#aside?.end();
    this.#aside = undefined;
    this.#progress.hidden = this.#stop.hidden = true;
    this.#go.removeAttribute('aria-disabled');
    setText(this.#state, words);
  }
}
