import { el } from './dom.js';
import { Emitter } from './emitter.js';
import { History } from './history.js';
import { remember, remembered } from './store.js';
import { say } from './words.js';

/** @import { Design } from './messages.d.ts' */
/** @import { Session } from './session.js' */

/** Turns of one knob that follow each other so quickly are one step, ms, even without a pointer that holds on. */
const RUN = 900;
/** How long nothing changes before it is written, ms; a page that is left writes at once. */
const REST = 400;

/**
 * Undo and redo: two buttons and the steps behind them. This tab remembers them, so that loading it anew loses none.
 * @extends {Emitter<{ show: { design: Design, name: string } }>}
 */
export class UndoWork extends Emitter {
  #session;
  #key;
  #history;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #timer;
  /** Counts what hands do: a drag from touching down to letting go is one, so is a run of key presses. */
  #gesture = 0;
  #turned = 0;
  #held = false;
  #undo = button('undo', 'M4 9H13A6 6 0 0 1 13 21H8M4 9L9 4M4 9L9 14', () => this.undo());
  #redo = button('redo', 'M20 9H11A6 6 0 0 0 11 21H16M20 9L15 4M20 9L15 14', () => this.redo());
  container = el('div', { class: 'undo-buttons' }, this.#undo, this.#redo);

  /** @param {Session} session @param {string} key under which this tab remembers */
  constructor(session, key) {
    super();
    this.#session = session;
    this.#key = key;
    this.#history = History.read(remembered(key));
    addEventListener('pointerdown', () => this.#hold(true), { capture: true });
    for (const end of ['pointerup', 'pointercancel']) addEventListener(end, () => this.#hold(false), { capture: true });
    addEventListener('pagehide', () => this.#write());
    this.#tell();
  }

  /** Takes note of the session's design. @param {string} [knob] the one that was turned by hand; absent where the whole was changed */
  note(knob) {
    const { design, name } = this.#session;
    const before = this.#history;
    this.#history = before.note({ design, name }, knob && `${knob} ${this.#gestureOf()}`);
    if (this.#history === before) return;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#write(), REST);
    this.#tell();
  }

  undo() {
    this.#go(this.#history.undo());
  }

  redo() {
    this.#go(this.#history.redo());
  }

  /** @param {History} history */
  #go(history) {
    if (history === this.#history || !history.present) return;
    this.#history = history;
    this.#write();
    this.#tell();
    this.emit('show', history.present);
  }

  #gestureOf() {
    const now = performance.now();
    if (!this.#held && now - this.#turned > RUN) this.#gesture += 1;
    this.#turned = now;
    return this.#gesture;
  }

  /** @param {boolean} held */
  #hold(held) {
    if (held) this.#gesture += 1;
    else this.#turned = performance.now();
    this.#held = held;
  }

  #write() {
    clearTimeout(this.#timer);
    if (this.#history.present) remember(this.#key, this.#history.write());
  }

  #tell() {
    // Not `disabled`: that would take the focus away from whoever goes back to the very first step by keyboard.
    this.#undo.setAttribute('aria-disabled', String(!this.#history.canUndo));
    this.#redo.setAttribute('aria-disabled', String(!this.#history.canRedo));
  }
}

/** @param {'undo' | 'redo'} word @param {string} path @param {() => void} act */
function button(word, path, act) {
  const name = say(`${word}_name`);
  const made = el('button', { type: 'button', class: 'plain-button icon-button', 'aria-label': name, title: name, onclick: act });
  made.append(icon(path));
  return made;
}

/** A small drawing in lines on a square of 24. @param {string} path */
export function icon(path) {
  const NS = 'http://www.w3.org/2000/svg';
  const svg = document.createElementNS(NS, 'svg');
  svg.setAttribute('viewBox', '0 0 24 24');
  svg.setAttribute('aria-hidden', 'true');
  svg.setAttribute('class', 'icon');
  const line = document.createElementNS(NS, 'path');
  line.setAttribute('d', path);
  svg.append(line);
  return svg;
}
