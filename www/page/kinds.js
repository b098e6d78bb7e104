import { el } from './dom.js';
import { Emitter } from './emitter.js';
import { knobValue } from './format.js';
import { parsePicture } from './trusted.js';
import { say, within } from './words.js';

/** @import { Dropped, Kind, Knob } from './messages.d.ts' */

/** How far outside the window the chooser may be when its drawings are made, in CSS pixels. */
const NEAR = '300px';
/** Room around a drawing, as a share of its larger side: lines have a width. */
const ROOM = 0.02;
/** A chair so high, in mm, fills its tile; lower ones are drawn lower, but by half as much only. */
const TALL = 1100;

/**
 * The chooser of kinds of chair: a radio button each, with its name and a small line drawing.
 * @extends {Emitter<{ choose: string, near: null }>}
 */
export class Kinds extends Emitter {
  /** @type {Map<string, { input: HTMLInputElement, picture: HTMLElement, label: string }>} */
  #tiles = new Map();

  #head;

  /** @param {HTMLElement} container @param {string} [head] what stands above it */
  constructor(container, head = say('kinds')) {
    super();
    this.container = container;
    this.#head = head;
    const watch = new IntersectionObserver(
      (seen) => {
        if (!seen.some(({ isIntersecting }) => isIntersecting)) return;
        watch.disconnect();
        this.emit('near', null);
      },
      { rootMargin: NEAR },
    );
    watch.observe(container);
  }

  /** @param {Kind[]} kinds */
  list(kinds) {
    const tiles = kinds.map((kind) => this.#tile(kind));
    const head = el('h2', { class: 'kinds-head', id: 'kinds-head', text: this.#head });
    this.container.replaceChildren(head, el('div', { class: 'kinds-tiles', role: 'radiogroup', 'aria-labelledby': head.id }, ...tiles));
  }

  /** @param {unknown} family the kind of the design */
  update(family) {
    for (const [name, { input }] of this.#tiles) input.checked = name === family;
  }

  /** What a kind is called. @param {unknown} family */
  labelOf(family) {
    return this.#tiles.get(String(family))?.label ?? String(family);
  }

  /** Names of the kinds that have no drawing yet. */
  get bare() {
    return [...this.#tiles].filter(([, { picture }]) => picture.childElementCount === 0).map(([name]) => name);
  }

  /**
   * Shows a kind's drawing in lines: its colours come from the page, so it serves light and dark.
   * @param {string} family
   * @param {string} svg the core's drawing
   * @param {number} tall height of the chair, mm
   */
  draw(family, svg, tall) {
    const picture = this.#tiles.get(family)?.picture;
    if (!picture) return;
    const drawing = parsePicture(svg);
    for (const other of drawing.querySelectorAll(':scope > :not([data-letter])')) other.remove();
    for (const name of ['width', 'height', 'role']) drawing.removeAttribute(name);
    drawing.setAttribute('focusable', 'false');
    picture.replaceChildren(drawing);
    drawing.setAttribute('viewBox', trimmed(drawing.getBBox(), (1 + Math.min(1, tall / TALL)) / 2));
    drawing.setAttribute('preserveAspectRatio', 'xMidYMax');
  }

  /** @param {Kind} kind */
  #tile({ name, label }) {
    const input = el('input', { type: 'radio', name: 'kind', value: name });
    input.addEventListener('change', () => this.emit('choose', name));
    const picture = el('span', { class: 'kind-picture', 'aria-hidden': 'true' });
    this.#tiles.set(name, { input, picture, label });
    return el('label', { class: 'kind' }, input, picture, el('span', { class: 'kind-name' }, el('bdi', { text: label })));
  }
}

/**
 * A view box close around what is drawn, with air above it.
 * @param {DOMRect} box
 * @param {number} share of the height that the drawing takes
 */
function trimmed({ x, y, width, height }, share) {
  const room = ROOM * Math.max(width, height);
  const air = height / share - height;
  return [x - room, y - room - air, width + 2 * room, height + 2 * room + air].map((length) => length.toFixed(1)).join(' ');
}

/**
 * Says which kind is shown now, and which changed sizes it could not keep.
 * @param {string} kind its label
 * @param {Dropped[]} dropped
 * @param {boolean} changed whether there was anything to keep
 * @param {(name: string) => { was: Knob | undefined, now: Knob | undefined }} rowsOf a knob before and now
 */
export function turnedWords(kind, dropped, changed, rowsOf) {
  if (dropped.length === 0) return say(changed ? 'kind_kept' : 'kind_opened', { kind: within(kind) });
  const lines = dropped.map(({ knob, was, now }) => {
    const rows = rowsOf(knob);
    const [before, after] = [rows.was && knobValue(rows.was, was), rows.now && knobValue(rows.now, now)];
    return say('kind_dropped_one', { label: rows.now?.label ?? knob, was: before ?? was, now: after ?? now });
  });
  return say('kind_dropped', { kind: within(kind), lines: lines.join(say('semicolon')) });
}
