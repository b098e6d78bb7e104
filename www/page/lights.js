import { Emitter } from './emitter.js';

/**
 * Which parts are lit, by letter: those under the pointer, or else those that were tapped.
 * @extends {Emitter<{ change: ReadonlySet<string> }>}
 */
export class Lights extends Emitter {
  /** @type {ReadonlySet<string>} */
  #hovered = new Set();
  /** @type {Set<string>} */
  #tapped = new Set();

  /** @param {string[]} letters none when the pointer has left */
  hover(letters) {
    if (letters.length === 0 && this.#hovered.size === 0) return;
    this.#hovered = new Set(letters);
    this.tell();
  }

  /** A second tap puts the light out; a tap beside the chair puts out all. @param {string | undefined} letter */
  tap(letter) {
    if (letter === undefined) this.#tapped.clear();
    else if (!this.#tapped.delete(letter)) this.#tapped = new Set([letter]);
    this.#hovered = new Set();
    this.tell();
  }

  /** All parts of a line; a second pick of the same puts them out. @param {string[]} letters */
  pick(letters) {
    const same = letters.length === this.#tapped.size && letters.every((letter) => this.#tapped.has(letter));
    this.#tapped = new Set(same ? [] : letters);
    this.#hovered = new Set();
    this.tell();
  }

  tell() {
    this.emit('change', this.#hovered.size > 0 ? this.#hovered : this.#tapped);
  }
}
