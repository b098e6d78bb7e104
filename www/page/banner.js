import { el } from './dom.js';
import { Emitter } from './emitter.js';
import { knobValue } from './format.js';
import { say } from './words.js';

/** @import { Knob, Mend, Refusal, Value } from './messages.d.ts' */

/**
 * Says why the chair cannot be made as set, which knobs clash, and offers what works.
 * @extends {Emitter<{ mend: { knob: string, value: Value }, nearest: null, back: null, knob: string }>}
 */
export class Banner extends Emitter {
  #knobs;
  #shown = '';

  /** @param {HTMLElement} container @param {Map<string, Knob>} knobs */
  constructor(container, knobs) {
    super();
    this.container = container;
    this.#knobs = knobs;
  }

  /** @param {Refusal} refusal */
  update(refusal) {
    const now = JSON.stringify(refusal);
    if (now === this.#shown) return;
    this.#shown = now;
    this.container.replaceChildren(
      el('h2', { text: say('clash') }),
      el('p', { class: 'clash-why', text: refusal.why }),
      this.#clashing(refusal.knobs ?? []),
      el('p', { class: 'clash-actions' }, this.#remedy(refusal.mend), this.#button('clash_back', () => this.emit('back', null))),
      el('p', { class: 'clash-keeps', text: say('clash_keeps') }),
    );
    this.container.hidden = false;
  }

  clear() {
    if (this.#shown === '') return;
    this.#shown = '';
    this.container.hidden = true;
    this.container.replaceChildren();
  }

  /** While the core looks for a value. */
  looking() {
    const button = this.container.querySelector('.clash-nearest');
    if (!(button instanceof HTMLButtonElement)) return;
    button.textContent = say('clash_looking');
    button.disabled = true;
  }

  /** @param {Mend} mend what the core found */
  offer(mend) {
    this.container.querySelector('.clash-nearest')?.replaceWith(this.#remedy(mend));
  }

  /** @param {string} why it found nothing */
  lost(why) {
    this.container.querySelector('.clash-nearest')?.replaceWith(el('span', { text: say('clash_lost', { why }) }));
  }

  /** @param {string[]} names */
  #clashing(names) {
    const known = names.filter((name) => this.#knobs.has(name));
    if (known.length === 0) return '';
    const buttons = known.map((name) =>
      el('button', { type: 'button', class: 'text-button', text: this.#knobs.get(name)?.label, onclick: () => this.emit('knob', name) }),
    );
    return el('p', { class: 'clash-knobs' }, el('span', { text: say('clash_knobs') }), ...buttons);
  }

  /** @param {Mend | undefined} mend */
  #remedy(mend) {
    if (!mend) {
      const button = this.#button('clash_nearest', () => this.emit('nearest', null));
      button.classList.add('clash-nearest', 'strong-button');
      return button;
    }
    const knob = this.#knobs.get(mend.knob);
    const words = mend.say || say('clash_set', { label: knob?.label ?? mend.knob, value: knob ? knobValue(knob, mend.value) : mend.value });
    return el('button', { type: 'button', class: 'strong-button', text: words, onclick: () => this.emit('mend', { knob: mend.knob, value: mend.value }) });
  }

  /** @param {'clash_nearest' | 'clash_back'} word @param {() => void} act */
  #button(word, act) {
    return el('button', { type: 'button', class: 'plain-button', text: say(word), onclick: act });
  }
}
