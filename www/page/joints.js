import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { number } from './format.js';
import { letterButton } from './table.js';
import { say, sayIf } from './words.js';

/** @import { CornerRow, JointRow, Report } from './messages.d.ts' */

/** @typedef {[name: string, value: string][]} Figures */

const MM2_IN_CM2 = 100;

/**
 * The joints: one entry for all made alike, with the numbers to mark from.
 * An entry's figures are filled only while it is open.
 * @extends {Emitter<{ hover: string[], tap: string }>}
 */
export class Joints extends Emitter {
  #list = el('div', { class: 'joints' });
  /** @type {Entry[]} */
  #entries = [];
  container = el('section', {}, el('p', { class: 'list-note', text: say('joints_note') }), this.#list);

  /** @param {Report} report */
  update({ joints }) {
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
    setText(this.#line, `${kindWords(joint)} ${[length, width, thickness].map((size) => number(size)).join(' × ')} ${say('unit_mm')}`);
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
    const now = JSON.stringify(this.#joint);
    if (now === this.#filled) return;
    this.#filled = now;
    this.#body.replaceChildren(...blocks(this.#joint));
  }
}

/** @param {JointRow} joint */
function blocks(joint) {
  const { letter_guest: guest, letter_host: host } = joint;
  return [
    joint.why ? words('joint_kind', [kindWords(joint), joint.why]) : '',
    block([say('tenon'), letterButton(guest), joint.guest], tenonFigures(joint)),
    block([say('shoulders')], shoulderFigures(joint)),
    block([say('mortise'), letterButton(host), joint.host], mortiseFigures(joint)),
    ...joint.pegs.map((peg, i) => block([say('peg_number', { number: i + 1, shape: pegShape(peg.shape) })], pegFigures(peg))),
    block([say('angles')], angleFigures(joint)),
    ...[joint.corner ?? []].flat().map((corner) => words('corner', cornerLines(corner))),
    rules(joint),
  ];
}

/** @param {(string | Node)[]} head @param {Figures} figures */
function block(head, figures) {
  if (figures.length === 0) return '';
  const lines = figures.map(([name, value]) => el('div', {}, el('dt', { text: name }), el('dd', { text: value })));
  const words = head.map((word) => (typeof word === 'string' ? el('span', { text: word }) : word));
  return el('div', { class: 'figure-block' }, el('h3', {}, ...words), el('dl', {}, ...lines));
}

/** @param {number} value */
function mm(value) {
  // A space that does not break keeps figure and unit together.
  return `${number(value, 2)}\u00a0${say('unit_mm')}`;
}

/** @param {JointRow} joint @returns {Figures} */
function tenonFigures({ tenon, haunch, mitre }) {
  /** @type {Figures} */
  const figures = [
    [say('length'), mm(tenon.length)],
    [say('width'), mm(tenon.width)],
    [say('thickness'), mm(tenon.thickness)],
  ];
  if (haunch) figures.push([say('haunch'), `${number(haunch.length, 2)} × ${mm(haunch.width)}`]);
  if (mitre) figures.push([say('mitre_short'), mm(mitre.short_length)], [say('mitre_gap'), mm(mitre.gap)]);
  if (mitre?.with) figures.push([say('mitre_with'), mitre.with]);
  return figures;
}

/** @param {JointRow} joint @returns {Figures} */
function shoulderFigures({ shoulders }) {
  const sides = /** @type {const} */ (['top', 'bottom', 'front', 'back']);
  return sides.map((side) => [say(`shoulder_${side}`), shoulders[side] > 0 ? mm(shoulders[side]) : say('bare')]);
}

/** @param {JointRow} joint @returns {Figures} */
function mortiseFigures({ mortise }) {
  const { above_floor: floor } = mortise;
  return [
    [say('mortise_depth'), mm(mortise.depth)],
    [say('mortise_width'), mm(mortise.width)],
    [say('mortise_thickness'), mm(mortise.thickness)],
    ...(floor ? [/** @type {[string, string]} */ ([say('above_floor'), heights(floor)])] : []),
    [say('from_end'), mm(mortise.from_end)],
    [say('wall'), mm(mortise.wall)],
    [say('glue_gap'), mm(mortise.glue_gap)],
  ];
}

/** @param {JointRow['pegs'][number]} peg @returns {Figures} */
function pegFigures(peg) {
  return [
    [say('peg_size'), mm(peg.size)],
    [say('peg_from_face'), mm(peg.from_face)],
    [say('peg_from_middle'), fromMiddle(peg.from_middle)],
    [say('peg_length'), mm(peg.length)],
    ...(peg.draw ? [/** @type {[string, string]} */ ([say('peg_draw'), mm(peg.draw)])] : []),
  ];
}

/** Along the tenon's width, where the larger side is its top. @param {number} offset */
function fromMiddle(offset) {
  if (offset === 0) return say('peg_on_middle');
  return say(offset > 0 ? 'peg_towards_top' : 'peg_towards_bottom', { value: mm(Math.abs(offset)) });
}

/** @param {string} shape */
function pegShape(shape) {
  return shape === 'round' || shape === 'square' ? say(`peg_${shape}`) : shape;
}

const angleWords = /** @type {const} */ ({
  shoulder_across_width: 'angle_across_width',
  shoulder_across_thickness: 'angle_across_thickness',
  tenon_to_grain: 'angle_to_grain',
  mortise_from_square: 'angle_mortise',
});

/** @param {JointRow} joint @returns {Figures} */
function angleFigures({ angles }) {
  return Object.entries(angles).map(([name, degrees]) => {
    const words = name in angleWords ? say(angleWords[/** @type {keyof typeof angleWords} */ (name)]) : name.replaceAll('_', ' ');
    return [words, `${number(degrees, 2)}${say('unit_deg')}`];
  });
}

/** How a joint is made, in the trade's words. @param {JointRow} joint */
function kindWords({ kind }) {
  if (!kind) return say('tenon');
  const known = sayIf(`joint_kind_${kind}`);
  return known ?? kind.replaceAll('_', ' ');
}

/** @param {string} way */
function wayWords(way) {
  return sayIf(`way_${way}`) ?? way.replaceAll('_', ' ');
}

/** The way taken and why, then what else was weighed. @param {CornerRow} corner */
function cornerLines({ way, why, others = [] }) {
  const weighed = others.filter((other) => other.way !== way);
  return [
    say('corner_taken', { way: wayWords(way), why }),
    ...weighed.map((other) => {
      const area = other.glue_mm2 ? say('corner_glue', { area: number(other.glue_mm2 / MM2_IN_CM2, 1) }) : '';
      return say('corner_other', { way: wayWords(other.way), why: [area, other.why].filter(Boolean).join('; ') });
    }),
  ];
}

/** @param {'joint_kind' | 'corner'} head @param {string[]} lines */
function words(head, lines) {
  const items = lines.map((line) => el('li', { text: line }));
  return el('div', { class: 'figure-block figure-rules' }, el('h3', {}, el('span', { text: say(head) })), el('ul', {}, ...items));
}

/** @param {JointRow} joint */
function rules({ rule }) {
  const lines = rule.map((line) => el('li', {}, el('span', { text: line.say }), el('cite', { text: line.source })));
  return el('div', { class: 'figure-block figure-rules' }, el('h3', {}, el('span', { text: say('rules') })), el('ul', {}, ...lines));
}

/**
 * @param {[number, number][]} pairs
 * @returns {string}
 */
function heights(pairs) {
  return pairs.map(([low, high]) => `${number(low)} – ${mm(high)}`).join(', ');
}
