import { byId, el } from './dom.js';
import { Emitter } from './emitter.js';
import { canShare } from './habits.js';
import { languageMenu } from './language-menu.js';
import { lengthChoices } from './length-choices.js';
import { served } from './start-worker.js';
import { say } from './words.js';

/** As long as a name may be: it has to stand in a title block. */
const NAME_LENGTH = 60;

/**
 * The head of the sheet: the design's name and the menu.
 * @extends {Emitter<{ name: string, open: File, save: null, link: null, share: null, keep: null, shelf: null, surprise: null, reset: null, checkin: null, keys: null, scheme: string }>}
 */
export class Head extends Emitter {
  #name = byId('design-name', HTMLInputElement);
  #menu = byId('menu');
  #file = el('input', { type: 'file', accept: '.json,.html,.pdf,application/json,text/html,application/pdf', hidden: true, tabindex: '-1' });

  /** @param {HTMLElement} container @param {string} scheme the scheme chosen */
  constructor(container, scheme) {
    super();
    this.container = container;
    this.#name.maxLength = NAME_LENGTH;
    this.#name.placeholder = say('design_unnamed');
    this.#name.addEventListener('input', () => this.emit('name', tidyName(this.#name.value)));
    this.#name.addEventListener('keydown', ({ key }) => key === 'Enter' && this.#name.blur());
    this.#file.addEventListener('change', () => this.#chosen());
    container.append(this.#file);
    this.#menu.append(...this.#items(), languageMenu('language'), lengthChoices(), this.#schemes(scheme));
    this.#keepClosed();
  }

  /** @param {string} name */
  update(name) {
    if (document.activeElement !== this.#name) this.#name.value = name;
  }

  #items() {
    /** @param {'menu_open' | 'menu_save' | 'menu_link' | 'menu_share' | 'menu_keep' | 'menu_shelf' | 'menu_surprise' | 'menu_reset' | 'menu_checkin' | 'menu_showroom' | 'menu_setup' | 'menu_keys'} word @param {() => void} act */
    const item = (word, act) => el('button', { type: 'button', class: 'menu-item', text: say(word), onclick: () => (this.#menu.hidePopover?.(), act()) });
    return [
      item('menu_open', () => this.#file.click()),
      item('menu_save', () => this.emit('save', null)),
      item('menu_link', () => this.emit('link', null)),
      ...(canShare ? [item('menu_share', () => this.emit('share', null))] : []),
      item('menu_keep', () => this.emit('keep', null)),
      item('menu_shelf', () => this.emit('shelf', null)),
      item('menu_surprise', () => this.emit('surprise', null)),
      item('menu_reset', () => this.emit('reset', null)),
      item('menu_checkin', () => this.emit('checkin', null)),
      ...(served ? [item('menu_showroom', () => location.assign('showroom.html')), item('menu_setup', () => location.assign('setup.html'))] : []),
      item('menu_keys', () => this.emit('keys', null)),
    ];
  }

  /** @param {string} chosen */
  #schemes(chosen) {
    const options = /** @type {const} */ (['system', 'light', 'dark']).map((choice) => {
      const input = el('input', { type: 'radio', name: 'scheme', value: choice });
      input.checked = choice === chosen;
      input.addEventListener('change', () => this.emit('scheme', choice));
      return el('label', { class: 'choice' }, input, el('span', { text: say(`scheme_${choice}`) }));
    });
    return el('fieldset', { class: 'menu-schemes' }, el('legend', { text: say('scheme') }), el('div', { class: 'choices' }, ...options));
  }

  #chosen() {
    const file = this.#file.files?.[0];
    this.#file.value = '';
    if (file) this.emit('open', file);
  }

  /** Says to the button whether its menu is open. */
  #keepClosed() {
    const button = byId('menu-button');
    this.#menu.addEventListener('toggle', (event) => button.setAttribute('aria-expanded', String(/** @type {any} */ (event).newState === 'open')));
  }
}

/**
 * A name as it may be shown and kept: one line, no control or direction-turning characters and no halves of one. What joins and parts letters
 * stays, since scripts need it; alone it is no name.
 * @param {string} text
 */
export function tidyName(text) {
  const tidy = text
    .replace(/(?![\u200c\u200d])[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu, ' ')
    .slice(0, NAME_LENGTH)
    .replace(/[\ud800-\udbff]$/, '')
    .trim();
  return /[^\s\u200c\u200d]/.test(tidy) ? tidy : '';
}
