import { el } from './dom.js';
import { drop, keep, kept } from './store.js';
import { say } from './words.js';

/** @import { Word } from './words.js' */

/**
 * @typedef {object} Key
 * @property {string} key as the browser names it; a letter in lower case
 * @property {boolean} [command] whether Ctrl, or Command on a Mac, is held
 * @property {boolean} [always] whether it works while somebody types too
 * @property {boolean} [shift] whether Shift must be held; it may be where this is absent
 * @property {Word} word what it does
 * @property {() => void} act
 */

/** Under this name it is kept that plain keys do nothing. */
const OFF = 'keys-off';
const isMac = /Mac|iP(hone|ad)/.test(navigator.platform);

/**
 * Hears the keys of a page. They do nothing while somebody types or a dialog is open, and those without Ctrl or Command can be turned
 * off, as people need who dictate (WCAG 2.2, 2.1.4).
 */
export class Keys {
  #keys;
  /** @type {HTMLDialogElement | undefined} */
  #dialog;
  /** @type {EventTarget | null} the field in which something was typed that is not taken over yet */
  #typed = null;

  /** @param {Key[]} keys */
  constructor(keys) {
    /** @type {Key[]} */
    this.#keys = [...keys, { key: '?', word: 'key_help', act: () => this.show() }];
    addEventListener('input', ({ target }) => (this.#typed = target), { capture: true });
    addEventListener('change', () => (this.#typed = null), { capture: true });
    addEventListener('keydown', (event) => {
      if (event.key === 'Enter') this.#typed = null;
      this.#hear(event);
    });
  }

  /** Opens the dialog with all keys. */
  async show() {
    const { madeDialog } = await import('./made-dialog.js');
    this.#dialog ??= this.#made(madeDialog);
    if (!this.#dialog.open) this.#dialog.showModal();
  }

  /** @param {KeyboardEvent} event */
  #hear(event) {
    if (event.defaultPrevented || event.altKey || event.isComposing || document.querySelector('dialog[open]')) return;
    const command = isMac ? event.metaKey : event.ctrlKey;
    if (!command && (event.ctrlKey || event.metaKey || kept(OFF) !== null)) return;
    const pressed = event.key.toLowerCase();
    const found = this.#keys.find(({ key, command: wants = false, shift }) => key === pressed && wants === command && (shift ?? event.shiftKey) === event.shiftKey);
    if (!found || (!found.always && this.#isTyping(event.target, command))) return;
    event.preventDefault();
    found.act();
  }

  /** In the field of a knob whose size has been taken over, undo is that of the page. @param {EventTarget | null} target @param {boolean} command */
  #isTyping(target, command) {
    const isKnob = target instanceof Element && target.matches('.knob-field');
    return isKnob && command ? target === this.#typed : isTyping(target);
  }

  /** @param {typeof import('./made-dialog.js').madeDialog} madeDialog */
  #made(madeDialog) {
    const rows = this.#keys.map((key) => el('div', { class: 'keys-row' }, el('dt', {}, ...caps(key)), el('dd', { text: say(key.word) })));
    const others = /** @type {const} */ (['picture', 'ruler', 'tabs', 'close', 'stop']).filter((what) => what !== 'tabs' || document.querySelector('[role="tablist"]'));
    const fixed = others.map((what) =>
      el('div', { class: 'keys-row' }, el('dt', {}, ...say(`key_${what}_keys`).split(' ').map((cap) => el('kbd', { text: cap }))), el('dd', { text: say(`key_${what}`) })),
    );
    const on = el('input', { type: 'checkbox' });
    on.checked = kept(OFF) === null;
    on.addEventListener('change', () => keepOff(!on.checked));
    return madeDialog('keys', say('keys'), el('p', { text: say('keys_note') }), el('dl', { class: 'keys-list' }, ...rows, ...fixed), el('label', { class: 'check' }, on, el('span', { text: say('keys_on') })));
  }
}

/** @param {boolean} off */
function keepOff(off) {
  if (off) keep(OFF, '1');
  else drop(OFF);
}

/** Whether what is pressed belongs to a text. @param {EventTarget | null} target */
function isTyping(target) {
  if (!(target instanceof HTMLElement)) return false;
  return target.isContentEditable || target.closest('textarea, select, input:not([type="range"], [type="radio"], [type="checkbox"], [type="button"])') !== null;
}

/** The keys as they are printed on a keyboard. @param {Key} key */
function caps({ key, command, shift }) {
  return [command && (isMac ? '⌘' : say('key_ctrl')), shift && (isMac ? '⇧' : say('key_shift')), key.toUpperCase()].flatMap((cap) => (cap ? [el('kbd', { text: cap })] : []));
}
