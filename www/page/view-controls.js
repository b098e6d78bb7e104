import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { number, wholeLength } from './format.js';
import { Ruler } from './ruler.js';
import { nameOf, say } from './words.js';

/** @import { Overall, View } from './messages.d.ts' */

/** The looks that a button leads to, degrees. */
const looks = /** @type {const} */ ({
  corner: { turn: -32, tilt: 18 },
  front: { turn: 0, tilt: 0 },
  side: { turn: -90, tilt: 0 },
});

/** @typedef {keyof typeof looks} Look */

/**
 * Rulers and buttons for how the chair is looked at.
 * @extends {Emitter<{ turn: number, spread: number, look: { turn: number, tilt: number }, glide: number, letters: boolean, colour: View['colour'] }>}
 */
export class ViewControls extends Emitter {
  #turn = new Ruler({ min: -180, max: 180, step: 1, mark: 0, label: say('turn'), major: 90, digits: 0 });
  #spread = new Ruler({ min: 0, max: 100, step: 1, mark: 0, label: nameOf(say('spread'), say('spread_name')), major: 50, digits: 0 });
  #spreadButton = el('button', { type: 'button', class: 'plain-button', text: say('take_apart'), 'data-look': 'apart' });
  #letters = el('input', { type: 'checkbox', 'aria-label': nameOf(say('letters'), say('letters_name')) });
  /** @type {Map<Look, HTMLButtonElement>} */
  #looks = new Map();
  /** @type {Map<View['colour'], HTMLButtonElement>} */
  #tints = new Map();
  #apart = false;

  /**
   * @param {HTMLElement} container
   * @param {HTMLElement} corner where the buttons lie on the picture @param {HTMLElement} tints and those for its tints
   */
  constructor(container, corner, tints) {
    super();
    this.container = container;
    this.#turn.on('input', (turn) => this.emit('turn', turn));
    this.#spread.on('input', (percent) => this.emit('spread', percent / 100));
    this.#spreadButton.addEventListener('click', () => this.emit('glide', this.#apart ? 0 : 1));
    this.#letters.addEventListener('change', () => this.emit('letters', this.#letters.checked));
    container.append(named('turn', this.#turn), named('spread', this.#spread));
    tints.append(...this.#tintButtons());
    corner.append(
      el('div', { class: 'looks' }, ...this.#lookButtons()),
      el('div', { class: 'looks' }, this.#spreadButton, el('label', { class: 'check' }, this.#letters, el('span', { text: say('letters') }))),
    );
  }

  /** @param {View} view */
  update({ turn, tilt, spread, letters, colour }) {
    for (const [tint, button] of this.#tints) button.setAttribute('aria-pressed', String(tint === colour));
    this.#turn.update(turn, say('turn_says', { turn: number(turn, 0) }));
    this.#spread.update(spread * 100, spreadWords(spread));
    this.#letters.checked = letters;
    this.#apart = spread > 0.5;
    setText(this.#spreadButton, say(this.#apart ? 'assemble' : 'take_apart'));
    for (const [look, button] of this.#looks) {
      const at = looks[look];
      button.setAttribute('aria-pressed', String(Math.abs(at.turn - turn) < 0.5 && Math.abs(at.tilt - tilt) < 0.5));
    }
  }

  #tintButtons() {
    return /** @type {const} */ (['wood', 'share']).map((tint) => {
      const button = el('button', { type: 'button', class: 'plain-button', text: say(`tint_${tint}`), 'aria-label': nameOf(say(`tint_${tint}`), say(`tint_name_${tint}`)) });
      button.addEventListener('click', () => this.emit('colour', tint));
      this.#tints.set(tint, button);
      return button;
    });
  }

  #lookButtons() {
    return /** @type {Look[]} */ (Object.keys(looks)).map((look) => {
      const button = el('button', { type: 'button', class: 'plain-button', text: say(`view_${look}`), 'aria-label': nameOf(say(`view_${look}`), say(`view_name_${look}`)), 'data-look': look });
      button.addEventListener('click', () => this.emit('look', looks[look]));
      this.#looks.set(look, button);
      return button;
    });
  }
}

/** @param {number} spread */
export function spreadWords(spread) {
  return spread < 0.005 ? say('spread_whole') : say('spread_apart', { percent: number(spread * 100, 0) });
}

/**
 * What the picture shows, in words.
 * @param {string} name @param {string} kind @param {View} view @param {Overall} overall
 */
export function pictureWords(name, kind, { turn, spread, colour }, overall) {
  const words = say('picture_says', {
    name: name || say('design_unnamed'),
    kind,
    view: say('turn_says', { turn: number(turn, 0) }),
    spread: spreadWords(spread),
    width: wholeLength(overall.width, true),
    depth: wholeLength(overall.depth, true),
    height: wholeLength(overall.height, true),
    seat: wholeLength(overall.seat_height, true),
  });
  return colour === 'share' ? `${words} ${say('tint_says')}` : words;
}

/** @param {'turn' | 'spread'} word @param {Ruler} ruler */
function named(word, ruler) {
  return el('div', { class: 'named-ruler' }, el('span', { class: 'ruler-name', 'aria-hidden': 'true', text: say(word) }), ruler.container);
}
