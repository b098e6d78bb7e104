import { download, fileStem } from './design-file.js';
import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { mailAddress } from './ask-words.js';
import { tidyName } from './head.js';
import { say } from './words.js';

/** @import { Order } from './messages.d.ts' */

/** @typedef {{ count: number, customer: string }} Wanted */
/** @typedef {{ subject: string, lines: string[], order: Order }} Letter */

/** As many chairs of one design as an order takes. */
const MOST = 999;

/**
 * The dialog in which a quote is asked for: by the customer's own mail program, or with a file. Nothing is sent from here.
 * @extends {Emitter<{ changed: Wanted, mail: { address: string, letter: Letter } }>}
 */
export class Ask extends Emitter {
  #mail;
  /** @type {Letter | undefined} */
  #letter;
  #count = el('input', { type: 'number', id: 'ask-count', class: 'ask-field', min: '1', max: String(MOST), step: '1', value: '1', inputmode: 'numeric' });
  #customer = el('input', { type: 'text', id: 'ask-customer', dir: 'auto', class: 'ask-field', maxlength: '60', autocomplete: 'name', placeholder: say('ask_customer_none') });
  #words = el('textarea', { id: 'ask-words', dir: 'auto', class: 'ask-words', readonly: true, rows: '7' });
  #state = el('p', { class: 'ask-state', role: 'status' });

  /** @param {HTMLDialogElement} dialog @param {string} mail where customers write to @param {string[]} contact */
  constructor(dialog, mail, contact) {
    super();
    this.dialog = dialog;
    this.#mail = mail;
    const shut = el('button', { type: 'button', class: 'close-button', text: '×', 'aria-label': say('close_dialog'), onclick: () => dialog.close() });
    dialog.setAttribute('aria-labelledby', 'ask-head');
    dialog.replaceChildren(
      el('div', { class: 'dialog-head' }, el('h2', { id: 'ask-head', text: say('ask') }), shut),
      el('p', { text: say('ask_note') }),
      el('div', { class: 'ask-fields' }, labelled('ask_quantity', this.#count), labelled('ask_customer', this.#customer)),
      labelled('ask_words', this.#words),
      el('div', { class: 'ask-acts' }, this.#button('strong-button', 'ask_mail', () => this.#send())),
      el('p', { class: 'ask-other', text: say('ask_other', { mail }) }),
      el('div', { class: 'ask-acts' }, this.#button('plain-button', 'ask_copy', () => this.#copy()), this.#button('plain-button', 'ask_save', () => this.#save())),
      this.#state,
      ...contact.map((line) => el('p', { class: 'ask-contact' }, el('bdi', { text: line }))),
    );
    this.#count.addEventListener('input', () => this.#changed());
    this.#customer.addEventListener('input', () => this.#changed());
  }

  open() {
    setText(this.#state, '');
    this.#changed();
    this.dialog.showModal();
  }

  /** @param {Letter} letter */
  update(letter) {
    this.#letter = letter;
    this.#words.value = letter.lines.join('\n');
  }

  #changed() {
    const count = Math.min(MOST, Math.max(1, Math.trunc(Number(this.#count.value)) || 1));
    this.emit('changed', { count, customer: tidyName(this.#customer.value) });
  }

  /** @param {string} kind @param {'ask_mail' | 'ask_copy' | 'ask_save'} word @param {() => void} act */
  #button(kind, word, act) {
    return el('button', { type: 'button', class: kind, text: say(word), onclick: act });
  }

  #send() {
    const letter = this.#letter;
    if (!letter) return;
    this.emit('mail', { address: mailAddress(this.#mail, letter), letter });
    setText(this.#state, say('ask_opened'));
  }

  async #copy() {
    try {
      await navigator.clipboard.writeText(this.#words.value);
      setText(this.#state, say('ask_copied'));
    } catch {
      this.#words.select();
      setText(this.#state, say('ask_copy_failed'));
    }
  }

  #save() {
    const order = this.#letter?.order;
    if (!order) return;
    const file = `${fileStem(order.name ?? '')}.order.json`;
    download({ name: file, type: 'application/json', bytes: `${JSON.stringify(order, null, 2)}\n` });
    setText(this.#state, say('ask_saved', { file, mail: this.#mail }));
  }
}

/** @param {'ask_quantity' | 'ask_customer' | 'ask_words'} word @param {HTMLElement} control */
function labelled(word, control) {
  return el('label', { class: 'ask-label', for: control.id }, el('span', { text: say(word) }), control);
}
