import { beside } from './beside.js';
import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { number as figures } from './format.js';
import { Job } from './job.js';
import { madeDialog } from './made-dialog.js';
import { drawChair, MOST_NUMBER } from './surprise.js';
import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Run } from './job.js' */
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
  #job = new Job(say('surprise_working'), (words) => this.#told(words));
  #go = el('button', { type: 'submit', class: 'strong-button', text: say('surprise_go') });
  #dialog;

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
      el('div', { class: 'ask-acts' }, this.#go, other),
      this.#state,
      this.#job.container,
    );
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      this.#draw();
    });
    this.#dialog = madeDialog('surprise', say('surprise'), form);
    this.#dialog.addEventListener('close', () => this.#job.giveWay());
  }

  open() {
    this.#pick();
    this.#told('');
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
    if (this.#job.runs) return;
    const number = Number(this.#number.value.replace(/[\s.,\u00a0\u202f]/g, ''));
    if (!Number.isInteger(number) || number < 1 || number > MOST_NUMBER) return setText(this.#state, say('surprise_wrong', { most: figures(MOST_NUMBER, 0) }));
    const drawn = await this.#job.run(say('surprise_working'), (run) => this.#drawn(number, run));
    if (!drawn) return;
    this.#told('why' in drawn ? say('surprise_begins', drawn) : '');
    if ('why' in drawn) return;
    this.#dialog.close();
    this.emit('drawn', { design: drawn.design, number });
  }

  /** @param {number} number @param {Run} run @returns {Promise<{ design: Design } | { why: string } | undefined>} */
  #drawn(number, { signal, report }) {
    const { begins, knobs, fails } = this.#around();
    return beside(signal, async (bridge) => {
      const why = await fails(bridge, begins);
      if (why) return { why };
      const holds = async (/** @type {Design} */ design) => (await fails(bridge, design)) === '';
      return { design: await drawChair({ number, begins, knobs, holds, report: (done, total) => report({ done, total, words: '' }) }) };
    });
  }

  /** @param {string} words */
  #told(words) {
    if (this.#job.runs) this.#go.setAttribute('aria-disabled', 'true');
    else this.#go.removeAttribute('aria-disabled');
    setText(this.#state, words);
  }
}
