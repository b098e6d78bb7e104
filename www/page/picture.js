import { Emitter } from './emitter.js';
import { firstPicture } from './first.js';
import { listenForSpreading } from './spreading.js';
import { parsePicture } from './trusted.js';

/** Degrees for each pixel of a drag: a turn by hand goes about half round on a phone. */
const DEGREES_A_PIXEL = 0.5;
/** Degrees for each press of an arrow key. */
const DEGREES_A_PRESS = 5;
/** Share of the spread for each press of plus or minus. */
const SPREAD_A_PRESS = 0.1;
/** A pointer that moved less, in pixels, has tapped. */
const TAP = 4;

/**
 * The picture of the chair: shows the core's drawing, is turned by drag and keys, and lights parts.
 * @extends {Emitter<{
 *   turn: { turn: number, tilt: number }, spread: number, hover: string | undefined, tap: string | undefined,
 *   size: { width: number, height: number },
 * }>}
 */
export class Picture extends Emitter {
  /** @type {Element | null} */
  #drawing;
  /** @type {ReadonlySet<string>} */
  #lit = new Set();
  /** @type {string | undefined} */
  #hovered;
  #spread = 0;
  #spreading;

  /** @param {HTMLElement} container */
  constructor(container) {
    super();
    this.container = container;
    this.#drawing = firstPicture(container);
    this.#spreading = listenForSpreading(container, (by) => this.emit('spread', by), () => this.#spread);
    container.addEventListener('pointerdown', (event) => this.#grab(event));
    container.addEventListener('pointerover', (event) => this.#hover(letterAt(event)));
    container.addEventListener('pointerleave', () => this.#hover(undefined));
    container.addEventListener('keydown', (event) => this.#key(event));
    new ResizeObserver(() => this.#resized()).observe(container);
  }

  /** The room for the drawing in CSS pixels; undefined where the picture is not shown, as on paper. */
  get size() {
    const { width, height } = this.container.getBoundingClientRect();
    return width > 0 && height > 0 ? { width: Math.round(width), height: Math.round(height) } : undefined;
  }

  /** @param {string} svg the core's drawing */
  update(svg) {
    const drawing = parsePicture(svg);
    // A browser would show it under the pointer; the container's name says the same and more.
    drawing.querySelector(':scope > title')?.remove();
    drawing.setAttribute('aria-hidden', 'true');
    drawing.setAttribute('focusable', 'false');
    if (this.#drawing) this.#drawing.replaceWith(drawing);
    else this.container.prepend(drawing);
    this.#drawing = drawing;
    if (this.#lit.size > 0) this.light(this.#lit);
  }

  /** @param {string} words what the picture shows */
  describe(words) {
    this.container.setAttribute('aria-label', words);
  }

  /** How far the chair is apart. @param {number} spread */
  apart(spread) {
    this.#spread = spread;
  }

  /** Dims it while it shows an older design than the knobs. @param {boolean} stale */
  stale(stale) {
    this.container.classList.toggle('stale', stale);
  }

  /** @param {ReadonlySet<string>} letters */
  light(letters) {
    this.#lit = letters;
    for (const part of this.#drawing?.querySelectorAll('[data-letter]') ?? []) {
      part.classList.toggle('lit', letters.has(part.getAttribute('data-letter') ?? ''));
    }
  }

  /** @param {PointerEvent} event */
  #grab(event) {
    if (event.button !== 0 || !event.isPrimary) return;
    const letter = letterAt(event);
    let [x, y] = [event.clientX, event.clientY];
    let travel = 0;
    this.container.setPointerCapture(event.pointerId);
    this.container.classList.add('grabbed');
    const done = new AbortController();
    const { signal } = done;
    this.container.addEventListener(
      'pointermove',
      (move) => {
        const [dx, dy] = [move.clientX - x, move.clientY - y];
        [x, y] = [move.clientX, move.clientY];
        travel += Math.abs(dx) + Math.abs(dy);
        if (travel > TAP && !this.#spreading()) this.emit('turn', { turn: dx * DEGREES_A_PIXEL, tilt: dy * DEGREES_A_PIXEL });
      },
      { signal },
    );
    const release = () => {
      done.abort();
      this.container.classList.remove('grabbed');
      if (travel <= TAP) this.emit('tap', letter);
    };
    this.container.addEventListener('pointerup', release, { signal });
    this.container.addEventListener('pointercancel', release, { signal });
  }

  /** @param {string | undefined} letter */
  #hover(letter) {
    if (letter === this.#hovered || this.container.classList.contains('grabbed')) return;
    this.#hovered = letter;
    this.emit('hover', letter);
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const by = DEGREES_A_PRESS;
    const turns = /** @type {Record<string, [number, number]>} */ ({
      ArrowLeft: [-by, 0],
      ArrowRight: [by, 0],
      ArrowUp: [0, by],
      ArrowDown: [0, -by],
    });
    const spreads = /** @type {Record<string, number>} */ ({ '+': 1, '=': 1, '-': -1 });
    const [turn, spread] = [turns[event.key], spreads[event.key]];
    if (event.ctrlKey || event.metaKey || event.altKey || (!turn && !spread)) return;
    event.preventDefault();
    if (turn) this.emit('turn', { turn: turn[0], tilt: turn[1] });
    if (spread) this.emit('spread', spread * SPREAD_A_PRESS);
  }

  #resized() {
    if (this.size) this.emit('size', this.size);
  }
}

/** @param {PointerEvent} event */
function letterAt(event) {
  const part = event.target instanceof Element ? event.target.closest('[data-letter]') : null;
  return part?.getAttribute('data-letter') ?? undefined;
}
