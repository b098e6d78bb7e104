import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { lengthFigure, lengthUnit } from './format.js';
import { lengths } from './length.js';
import { jointBlocks, kindWords } from './joint-figures.js';
import { say } from './words.js';

/** @import { JointRow, Report } from './messages.d.ts' */

/**
 * The joints: one entry for all made alike, with the numbers to mark from.
 * An entry's figures are filled only while it is open.
 * @extends {Emitter<{ hover: string[], tap: string }>}
 */
export class Joints extends Emitter {
  #list = el('div', { class: 'joints' });
  /** @type {Entry[]} */
  #entries = [];
  #note = el('p', { class: 'list-note' });
  container = el('section', {}, this.#note, this.#list);

  /** @param {Report} report */
  update({ joints }) {
    setText(this.#note, say('joints_note', { unit: lengthUnit() }));
    while (this.#entries.length > joints.length) this.#entries.pop()?.container.remove();
    while (this.#entries.length < joints.length) this.#add();
    joints.forEach((joint, i) => this.#entries[i]?.update(joint));
  }

  /** @param {ReadonlySet<string>} lit */
  light(lit) {
    for (const entry of this.#entries) entry.light(lit);
  }

  /** Opens all for paper, or gives each its own state back. @param {boolean} printing */
  print(printing) {
    for (const entry of this.#entries) entry.print(printing);
  }

  #add() {
    const entry = new Entry();
    entry.container.addEventListener('pointerenter', (event) => event.pointerType === 'mouse' && this.emit('hover', entry.letters));
    entry.container.addEventListener('pointerleave', () => this.emit('hover', []));
    entry.container.addEventListener('click', (event) => {
      const letter = event.target instanceof Element && event.target.closest('.letter');
      if (letter) this.emit('tap', letter.textContent ?? '');
    });
    this.#entries.push(entry);
    this.#list.append(entry.container);
  }
}

/** One joint. */
class Entry {
  #name = el('span', { class: 'joint-name' });
  #line = el('span', { class: 'joint-line' });
  #count = el('span', { class: 'joint-count' });
  #body = el('div', { class: 'joint-body' });
  container = el('details', { class: 'joint' }, el('summary', {}, this.#name, this.#line, this.#count), this.#body);
  /** @type {string[]} */
  letters = [];
  #wasOpen = false;
  /** @type {JointRow | undefined} */
  #joint;
  #filled = '';

  constructor() {
    this.container.addEventListener('toggle', () => this.#fill());
  }

  /** @param {JointRow} joint */
  update(joint) {
    this.#joint = joint;
    this.letters = [joint.letter_guest, joint.letter_host];
    const { length, width, thickness } = joint.tenon;
    setText(this.#name, joint.name);
    setText(this.#line, `${kindWords(joint)} ${[length, width, thickness].map((size) => lengthFigure(size)).join(' × ')} ${lengthUnit()}`);
    setText(this.#count, say('joint_count', { count: joint.quantity }));
    this.#fill();
  }

  /** @param {ReadonlySet<string>} lit */
  light(lit) {
    this.container.classList.toggle('lit', this.letters.every((letter) => lit.has(letter)));
    for (const button of this.#body.querySelectorAll('.letter')) {
      button.setAttribute('aria-pressed', String(lit.has(button.textContent ?? '')));
    }
  }

  /** @param {boolean} printing */
  print(printing) {
    if (printing) this.#wasOpen = this.container.open;
    this.container.open = printing || this.#wasOpen;
    this.#fill();
  }

  #fill() {
    if (!this.container.open || !this.#joint) return;
    const now = lengths.unit + JSON.stringify(this.#joint);
    if (now === this.#filled) return;
    this.#filled = now;
    this.#body.replaceChildren(...jointBlocks(this.#joint));
  }
}
