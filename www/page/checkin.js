import { calledFile, readFile } from './design-file.js';
import { el } from './dom.js';
import { Emitter } from './emitter.js';
import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { CheckedIn, CheckedLine, Design } from './messages.d.ts' */

/**
 * The dialog in which what a customer sent is held against the workshop's own book.
 * @extends {Emitter<{ open: { design: Design, name: string, quantity: number, customer: string } }>}
 */
export class CheckIn extends Emitter {
  #bridge;
  #around;
  #text = el('textarea', { id: 'checkin-text', dir: 'auto', class: 'ask-words', rows: '4', spellcheck: 'false' });
  #file = el('input', { type: 'file', accept: '.json,.html,.pdf,.txt,.eml,application/json,text/html,application/pdf,text/plain', hidden: true, tabindex: '-1' });
  #result = el('div', { class: 'checked', 'aria-live': 'polite' });
  #form = el(
    'form',
    { class: 'checked' },
    el('p', { text: say('checkin_note') }),
    el('label', { class: 'ask-label', for: 'checkin-text' }, el('span', { text: say('checkin_text') }), this.#text),
    el(
      'div',
      { class: 'ask-acts' },
      el('button', { type: 'submit', class: 'strong-button', text: say('checkin_go') }),
      el('button', { type: 'button', class: 'plain-button', text: say('checkin_file'), onclick: () => this.#file.click() }),
      this.#file,
    ),
  );

  /**
   * @param {HTMLDialogElement} dialog @param {Bridge} bridge
   * @param {() => { shop: unknown, showroom: unknown }} around the book and the showroom in force
   */
  constructor(dialog, bridge, around) {
    super();
    this.dialog = dialog;
    this.#bridge = bridge;
    this.#around = around;
    const shut = el('button', { type: 'button', class: 'close-button', text: '×', 'aria-label': say('close_dialog'), onclick: () => dialog.close() });
    dialog.setAttribute('aria-labelledby', 'checkin-head');
    dialog.replaceChildren(el('div', { class: 'dialog-head' }, el('h2', { id: 'checkin-head', text: say('checkin') }), shut), this.#form, this.#result);
    this.#form.addEventListener('submit', (event) => {
      event.preventDefault();
      this.check(this.#text.value);
    });
    this.#file.addEventListener('change', () => this.#chosen());
  }

  /** Asks what to check. */
  open() {
    this.#text.value = '';
    this.#form.hidden = false;
    this.#result.replaceChildren();
    if (!this.dialog.open) this.dialog.showModal();
    this.#text.focus();
  }

  /** Checks what a customer sent, and shows what was found. @param {string} text */
  async check(text) {
    if (!this.dialog.open) this.dialog.showModal();
    const answer = await this.#bridge.ask('checkIn', { text, ...this.#around() });
    this.#form.hidden = !answer.ok;
    if (answer.error) {
      this.#form.hidden = false;
      return this.#result.replaceChildren(el('p', { class: 'checked-error', role: 'alert', text: say('checkin_failed', { where: answer.error.where, why: answer.error.why }) }));
    }
    this.#form.hidden = true;
    this.#show(answer.ok);
  }

  async #chosen() {
    const file = this.#file.files?.[0];
    this.#file.value = '';
    if (!file) return;
    const read = await readFile(file, (bytes) => this.#bridge.ask('readAttached', bytes));
    if ('text' in read) return this.check(read.text);
    this.#result.replaceChildren(el('p', { class: 'checked-error', role: 'alert', text: say('checkin_failed', { where: calledFile(file), why: read.why }) }));
  }

  /** @param {CheckedIn} checked */
  #show({ customer, lines, name }) {
    this.#result.replaceChildren(
      ...(customer ? [el('p', { text: say('checkin_from', { customer }) })] : []),
      ...lines.map((line) => this.#line({ ...line, name: line.name || name }, customer)),
      el('div', { class: 'ask-acts' }, el('button', { type: 'button', class: 'plain-button', text: say('checkin_again'), onclick: () => this.open() })),
    );
  }

  /** @param {CheckedLine} line @param {string} customer */
  #line({ name, quantity, price, price_told: told, differences, design }, customer) {
    const open = () => {
      this.dialog.close();
      this.emit('open', { design, name, quantity, customer });
    };
    const head = say('checkin_of', { count: quantity, name: name || say('design_unnamed'), price: price ?? say('checkin_unpriced') });
    return el(
      'section',
      { class: 'checked-line' },
      el('h3', { text: head }),
      differences.length > 0 ? el('ul', { class: 'checked-list' }, ...differences.map(difference)) : null,
      differences.length === 0 && told ? el('p', { class: 'checked-same', text: say('checkin_same') }) : null,
      told ? null : el('p', { class: 'ask-other', text: say('checkin_untold') }),
      el('div', { class: 'ask-acts' }, el('button', { type: 'button', class: 'plain-button', text: say('checkin_open'), onclick: open })),
    );
  }
}

/** @param {CheckedLine['differences'][number]} difference */
function difference({ what, told, now, say: words, grave }) {
  const value = (/** @type {'checkin_told' | 'checkin_now'} */ head, /** @type {string} */ text, /** @type {string} */ kind) =>
    el('span', { class: kind }, el('span', { text: say('headed', { name: say(head) }) }), text);
  return el(
    'li',
    { class: grave ? 'grave' : '' },
    el('p', { class: 'checked-pair' }, el('span', { text: what }), value('checkin_told', told, 'checked-told'), value('checkin_now', now, 'checked-now')),
    el('p', { text: words }),
  );
}
