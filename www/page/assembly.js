import { el } from './dom.js';
import { Emitter } from './emitter.js';
import { letterButton } from './table.js';
import { say } from './words.js';

/** @import { AssemblyStep, Report } from './messages.d.ts' */

/**
 * How the chair goes together, step by step; not shown where the core has not worked it out.
 * @extends {Emitter<{ hover: string[], tap: string }>}
 */
export class Assembly extends Emitter {
  #list = el('ol', { class: 'assembly' });
  /** @type {{ line: HTMLElement, letters: string[] }[]} */
  #lines = [];
  #shown = '';
  container = el('section', {}, el('p', { class: 'list-note', text: say('assembly_note') }), this.#list);

  /** @param {Pick<Report, 'assembly'>} report */
  update({ assembly = [] }) {
    const now = JSON.stringify(assembly);
    if (now === this.#shown) return;
    this.#shown = now;
    this.#lines = assembly.map((step) => this.#line(step));
    this.#list.replaceChildren(...this.#lines.map(({ line }) => line));
  }

  /** @param {ReadonlySet<string>} lit */
  light(lit) {
    for (const { line, letters } of this.#lines) {
      line.classList.toggle('lit', letters.length > 0 && letters.some((letter) => lit.has(letter)));
      for (const button of line.querySelectorAll('.letter')) {
        button.setAttribute('aria-pressed', String(lit.has(button.textContent ?? '')));
      }
    }
  }

  /** @param {AssemblyStep} step */
  #line({ title, say: words, letters }) {
    const head = el('h3', {}, el('span', { text: title }), ...letters.map(letterButton));
    const line = el('li', { class: 'assembly-step' }, head, el('p', { text: words }));
    line.addEventListener('pointerenter', (event) => event.pointerType === 'mouse' && this.emit('hover', letters));
    line.addEventListener('pointerleave', () => this.emit('hover', []));
    line.addEventListener('click', (event) => {
      const letter = event.target instanceof Element && event.target.closest('.letter');
      if (letter) this.emit('tap', letter.textContent ?? '');
    });
    return { line, letters };
  }
}
