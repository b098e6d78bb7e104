import { el } from './dom.js';
import { Emitter } from './emitter.js';
import { knobValue } from './format.js';
import { inUnit } from './told-lengths.js';
import { say } from './words.js';

/** @import { Knob, Mend, Refusal, Value } from './messages.d.ts' */

/**
 * Says why the chair cannot be made as set, which knobs clash, and offers what works.
 * @extends {Emitter<{ mend: { knob: string, value: Value }, back: null, knob: string }>}
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
    const back = el('button', { type: 'button', class: 'plain-button', text: say('clash_back'), onclick: () => this.emit('back', null) });
    this.container.replaceChildren(
      el('h2', { text: say('clash') }),
      el('p', { class: 'clash-why', text: inUnit(refusal.why) }),
      this.#clashing(refusal.knobs ?? []),
      el('p', { class: 'clash-actions' }, this.#remedy(refusal.mend), back),
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

  /** @param {Mend} mend what the core found */
  offer(mend) {
    this.#replaceRemedy(this.#remedy(mend));
  }

  /** @param {string} why it found nothing */
  lost(why) {
    this.#replaceRemedy(el('span', { class: 'clash-remedy', text: say('clash_lost', { why: inUnit(why) }) }));
  }

  /** @param {HTMLElement} remedy */
  #replaceRemedy(remedy) {
    this.container.querySelector('.clash-remedy')?.replaceWith(remedy);
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

  /** What mends it, or that it is being looked for. @param {Mend | undefined} mend */
  #remedy(mend) {
    if (!mend) return el('button', { type: 'button', class: 'plain-button clash-remedy', text: say('clash_looking'), disabled: true });
    const knob = this.#knobs.get(mend.knob);
    const words = inUnit(mend.say ?? '') || say('clash_set', { label: knob?.label ?? mend.knob, value: knob ? knobValue(knob, mend.value) : mend.value });
    const act = () => this.emit('mend', { knob: mend.knob, value: mend.value });
    return el('button', { type: 'button', class: 'strong-button clash-remedy', text: words, onclick: act });
  }
}
