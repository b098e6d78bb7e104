import { el } from './dom.js';
import { Emitter } from './emitter.js';
import { lengths } from './length.js';
import { letterButton } from './table.js';
import { inUnit } from './told-lengths.js';
import { say } from './words.js';

/** @import { AssemblyRow, Report } from './messages.d.ts' */

/**
 * How the chair goes together, one step after the other.
 * @extends {Emitter<{ hover: string[], tap: string }>}
 */
export class Assembly extends Emitter {
  #list = el('ol', { class: 'steps' });
  /** @type {AssemblyRow[]} */
  #rows = [];
  #shown = '';
  container = el('section', {}, el('p', { class: 'list-note', text: say('assembly_note') }), this.#list);

  /** @param {HTMLElement} [below] what stands below the steps */
  constructor(below) {
    super();
    if (below) this.container.append(below);
    this.#list.addEventListener('click', (event) => {
      const letter = event.target instanceof Element && event.target.closest('.letter');
      if (letter) this.emit('tap', letter.textContent ?? '');
    });
  }

  /** @param {Report} report */
  update({ assembly }) {
    const now = lengths.unit + JSON.stringify(assembly);
    if (now === this.#shown) return;
    this.#shown = now;
    this.#rows = assembly;
    this.#list.replaceChildren(...assembly.map((row) => this.#step(row)));
  }

  /** @param {ReadonlySet<string>} lit */
  light(lit) {
    [...this.#list.children].forEach((step, i) => {
      const letters = this.#rows[i]?.letters ?? [];
      step.classList.toggle('lit', letters.some((letter) => lit.has(letter)));
    });
    for (const button of this.#list.querySelectorAll('.letter')) {
      button.setAttribute('aria-pressed', String(lit.has(button.textContent ?? '')));
    }
  }

  /** @param {AssemblyRow} row */
  #step({ title, say: words, letters }) {
    const step = el(
      'li',
      { class: 'step' },
      el('h3', { text: title }),
      el('p', { class: 'step-letters' }, ...letters.map(letterButton)),
      el('p', { class: 'step-words', text: inUnit(words) }),
    );
    step.addEventListener('pointerenter', (event) => event.pointerType === 'mouse' && this.emit('hover', letters));
    step.addEventListener('pointerleave', () => this.emit('hover', []));
    return step;
  }
}
