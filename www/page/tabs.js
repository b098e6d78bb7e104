import { el } from './dom.js';
import { Emitter } from './emitter.js';

/** @typedef {{ key: string, name: string, panel: HTMLElement }} Tab */

/**
 * Sections of which one is shown at a time; all of them are printed.
 * @extends {Emitter<{ shown: string }>}
 */
export class Tabs extends Emitter {
  #tabs;
  /** @type {Map<string, HTMLButtonElement>} */
  #buttons = new Map();
  #shown = '';

  /** @param {HTMLElement} container @param {string} name @param {Tab[]} tabs */
  constructor(container, name, tabs) {
    super();
    this.container = container;
    this.#tabs = tabs;
    const list = el('div', { class: 'tab-list', role: 'tablist', 'aria-label': name }, ...tabs.map((tab) => this.#button(tab)));
    list.addEventListener('keydown', (event) => this.#key(event));
    container.replaceChildren(list, ...tabs.map(({ panel }) => panel));
    this.show(tabs[0]?.key ?? '');
  }

  /** Which one is shown. */
  get shown() {
    return this.#shown;
  }

  /** @param {string} key */
  show(key) {
    this.#shown = key;
    for (const { key: other, panel } of this.#tabs) {
      const chosen = other === key;
      panel.hidden = !chosen;
      const button = this.#buttons.get(other);
      button?.setAttribute('aria-selected', String(chosen));
      if (button) button.tabIndex = chosen ? 0 : -1;
    }
    this.emit('shown', key);
  }

  /** Leaves out a tab that has nothing to show, on screen and on paper. @param {string} key @param {boolean} absent */
  leaveOut(key, absent) {
    const button = this.#buttons.get(key);
    if (!button || button.hidden === absent) return;
    button.hidden = absent;
    this.#tabs.find((tab) => tab.key === key)?.panel.classList.toggle('left-out', absent);
    if (absent && this.#shown === key) this.show(this.#tabs[0]?.key ?? '');
  }

  /** Adds a short remark to a tab's name, such as how many checks fail. @param {string} key @param {string} remark */
  remark(key, remark) {
    const at = this.#buttons.get(key)?.querySelector('.tab-remark');
    if (at && at.textContent !== remark) at.textContent = remark;
  }

  /** @param {Tab} tab */
  #button({ key, name, panel }) {
    panel.id = `list-${key}`;
    panel.setAttribute('role', 'tabpanel');
    panel.setAttribute('aria-labelledby', `tab-${key}`);
    panel.classList.add('list');
    panel.prepend(el('h2', { class: 'list-name', text: name }));
    const button = el('button', { type: 'button', role: 'tab', id: `tab-${key}`, 'aria-controls': panel.id, 'data-name': name, onclick: () => this.show(key) }, name, el('span', { class: 'tab-remark' }));
    this.#buttons.set(key, button);
    return button;
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const keys = this.#tabs.map(({ key }) => key).filter((key) => !this.#buttons.get(key)?.hidden);
    const at = keys.indexOf(this.#shown);
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: keys.length - 1 }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    const key = keys[(to + keys.length) % keys.length] ?? '';
    this.show(key);
    this.#buttons.get(key)?.focus();
  }
}
