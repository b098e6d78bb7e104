// The figures of one joint, in blocks: what a maker marks and cuts from.
import { el } from './dom.js';
import { number } from './format.js';
import { letterButton } from './table.js';
import { listed, say } from './words.js';

/** @import { CornerRow, JointRow } from './messages.d.ts' */

/** @typedef {[name: string, value: string][]} Figures */

const MM2_IN_CM2 = 100;

/** What kind of joint it is. @param {JointRow} joint */
export function kindWords({ kind_name: kind }) {
  return kind ? kind.charAt(0).toUpperCase() + kind.slice(1) : say('tenon');
}

/** @param {JointRow} joint */
export function jointBlocks(joint) {
  const { letter_guest: guest, letter_host: host } = joint;
  return [
    sentences('joint_kind', kindLines(joint)),
    block([say('tenon'), letterButton(guest), joint.guest], tenonFigures(joint)),
    block([say('shoulders')], shoulderFigures(joint)),
    block([say('mortise'), letterButton(host), joint.host], mortiseFigures(joint)),
    ...joint.pegs.map((peg, i) => block([say('peg_number', { number: i + 1, shape: pegShape(peg.shape) })], pegFigures(peg))),
    ...(joint.tongues ?? []).map((tongue, i) => block([say('tongue_number', { number: i + 1 })], tongueFigures(tongue))),
    block([joint.inserts?.what ?? ''], insertFigures(joint)),
    block([say('angles')], angleFigures(joint)),
    ...(joint.corners ?? []).map((corner) => sentences('corner', cornerLines(corner), { part: corner.with })),
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

/** @param {'joint_kind' | 'corner'} head @param {string[]} lines @param {Record<string, string>} [values] of the head */
function sentences(head, lines, values) {
  if (lines.length === 0) return '';
  const items = lines.map((line) => el('li', { text: line }));
  return el('div', { class: 'figure-block figure-words' }, el('h3', {}, el('span', { text: say(head, values) })), el('ul', {}, ...items));
}

/** @param {number} value */
function mm(value) {
  // A space that does not break keeps figure and unit together.
  return `${number(value, 2)}\u00a0${say('unit_mm')}`;
}

/** Which kind, why, and what was wished and had no room. @param {JointRow} joint */
function kindLines(joint) {
  if (!joint.why) return [];
  return [say('pair', { name: kindWords(joint), value: joint.why }), ...(joint.given_way ? [joint.given_way] : [])];
}

/** The way taken and why, then what else was weighed. @param {CornerRow} corner */
function cornerLines({ name, why, glue_mm2: glue, others }) {
  const area = (/** @type {number | undefined} */ mm2) => (mm2 ? say('corner_glue', { area: number(mm2 / MM2_IN_CM2, 1) }) : '');
  const line = (/** @type {string} */ way, /** @type {string} */ words) => say('corner_way', { way: way.charAt(0).toUpperCase() + way.slice(1), words });
  const told = (/** @type {(string | undefined)[]} */ ...words) => words.filter(Boolean).join('. ');
  return [line(name, told(area(glue), why)), ...others.map((other) => line(say('corner_other', { way: other.name }), told(area(other.glue_mm2), other.why)))];
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

/** One piece of a tenon that is not one plain rectangle. @param {NonNullable<JointRow['tongues']>[number]} tongue @returns {Figures} */
function tongueFigures({ from_bottom: bottom, width, from, to }) {
  return [
    [say('width'), mm(width)],
    [say('tongue_bottom'), mm(bottom)],
    [say('tongue_reach'), `${number(from, 2)} – ${mm(to)}`],
  ];
}

/** Loose tenons, dowels or wedges. @param {JointRow} joint @returns {Figures} */
function insertFigures({ inserts, wedges }) {
  if (!inserts) return [];
  /** @type {Figures} */
  const figures = [
    [say('insert_count'), number(inserts.quantity, 0)],
    [say('insert_size'), [inserts.length, inserts.width, inserts.thickness].map((size) => number(size)).join(' × ') + `\u00a0${say('unit_mm')}`],
  ];
  if (inserts.into_guest) figures.push([say('insert_into'), mm(inserts.into_guest)]);
  if (wedges) figures.push([say('wedge_kerf'), mm(wedges.kerf)], [say('wedge_flare'), mm(wedges.flare)]);
  if (wedges?.from_edge) figures.push([say('wedge_edge'), mm(wedges.from_edge)]);
  return figures;
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
  return listed(pairs.map(([low, high]) => `${number(low)}\u00a0–\u00a0${mm(high)}`));
}
