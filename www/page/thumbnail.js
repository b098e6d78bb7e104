import { parsePicture } from './trusted.js';

/** @typedef {{ x: number, y: number, width: number, height: number }} Box */

/**
 * The view of small pictures: three-quarter, without letters, all chairs to one scale and standing on one spot.
 * The sheet is large enough for the widest bench; what is drawn beyond it is there all the same.
 */
export const SMALL_VIEW = /** @type {const} */ ({ turn: -32, tilt: 14, spread: 0, letters: false, colour: 'wood', width: 800, height: 800, held: { scale: 0.4, focus: [0, 0] } });

/** Room around a drawing, as a share of its larger side: lines have a width. */
const ROOM = 0.02;

/**
 * A picture of the core's without its ground, put into a box.
 * @param {HTMLElement} box @param {string} svg
 */
export function putSmall(box, svg) {
  const drawing = parsePicture(svg);
  for (const other of drawing.querySelectorAll(':scope > title, :scope > desc, :scope > [data-layer="paper"]')) other.remove();
  for (const name of ['width', 'height', 'role']) drawing.removeAttribute(name);
  drawing.setAttribute('aria-hidden', 'true');
  drawing.setAttribute('focusable', 'false');
  box.replaceChildren(drawing);
  return drawing;
}

/** The room that a drawing takes which is shown. Put all into their boxes before one is measured: each time anything changes between, the page is laid out. @param {SVGSVGElement} drawing @returns {Box} */
export function drawn(drawing) {
  const { x, y, width, height } = drawing.getBBox();
  return { x, y, width, height };
}

/** Shows of drawings what lies in a box, with some room about it. @param {Iterable<SVGSVGElement>} drawings @param {Box} box */
export function frame(drawings, { x, y, width, height }) {
  const room = ROOM * Math.max(width, height);
  const view = [x - room, y - room, width + 2 * room, height + 2 * room].map((length) => length.toFixed(1)).join(' ');
  for (const drawing of drawings) {
    drawing.setAttribute('viewBox', view);
    drawing.setAttribute('preserveAspectRatio', 'xMidYMax');
  }
}

/** The smallest box around all. @param {Box[]} boxes @returns {Box} */
export function around(boxes) {
  const [x, y] = [Math.min(...boxes.map((box) => box.x)), Math.min(...boxes.map((box) => box.y))];
  const [right, bottom] = [Math.max(...boxes.map((box) => box.x + box.width)), Math.max(...boxes.map((box) => box.y + box.height))];
  return { x, y, width: right - x, height: bottom - y };
}
