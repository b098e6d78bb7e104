import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { knobValue, lengthUnit, number, wholeLength } from './format.js';
import { Job } from './job.js';
import { Table } from './table.js';
import { inUnit } from './told-lengths.js';
import { listed, say, within } from './words.js';

/** @import { Fit as FitTable, FitRow, Fitted, Knob, Report } from './messages.d.ts' */
/** @import { Column } from './table.js' */

/**
 * The sizes of the chair beside what its sitter wants, and a button that sets the knobs to it.
 * @extends {Emitter<{ make: void, knob: string }>}
 */
export class Fit extends Emitter {
  #who = el('p', { class: 'fit-who' });
  #button = el('button', { type: 'button', class: 'strong-button fit-make', text: say('fit_make'), onclick: () => !this.job.runs && this.emit('make', undefined) });
  #state = el('p', { class: 'list-note', role: 'status' });
  job = new Job(say('fit_trying'), (words) => this.tell(words));
  #table = new Table(say('fit'), columns, () => []);
  #unmet = el('ul', { class: 'fit-unmet' });
  #caveat = el('p', { class: 'list-note' });
  #labelOf;
  container = el('section', { class: 'fit' }, el('div', { class: 'fit-head' }, this.#who, this.#button), this.#state, this.job.container, this.#unmet, this.#table.container, this.#caveat);

  /** @param {(knob: string) => string} labelOf a knob's label */
  constructor(labelOf) {
    super();
    this.#labelOf = labelOf;
  }

  /** @param {Report} report */
  update({ fit }) {
    if (!this.job.runs) setText(this.#state, '');
    if (!fit) return;
    setText(this.#who, say('fit_who', { who: inUnit(fit.who) }));
    setText(this.#caveat, inUnit(fit.caveat));
    this.#table.update(fit.rows);
    markRows(this.#table.container, fit);
    const unmet = fit.rows.filter(({ verdict }) => verdict !== 'sound');
    this.#unmet.replaceChildren(...unmet.map((row) => this.#line(row)));
    this.#unmet.hidden = unmet.length === 0;
  }

  /** @param {string} words of what is done */
  tell(words) {
    this.#button.setAttribute('aria-disabled', String(this.job.runs));
    setText(this.#state, words);
  }

  /** @param {FitRow} row */
  #line({ plain, knob, verdict }) {
    const go = el('button', { type: 'button', class: 'text-button', text: say('finding_knob', { label: this.#labelOf(knob) }), onclick: () => this.emit('knob', knob) });
    return el('li', { 'data-verdict': verdict }, el('p', { text: inUnit(plain) }), go);
  }
}

/** @type {Column<FitRow>[]} */
const columns = [
  { key: 'fit-measure', head: say('fit_measure'), text: ({ measure }) => measure[0]?.toUpperCase() + measure.slice(1), note: ({ people }) => (people ? say('pair', { name: say('fit_people'), value: people }) : '') },
  { key: 'fit-chair', head: say('fit_chair'), figures: true, text: ({ chair, unit }) => sizeOf(chair, unit) },
  { key: 'fit-wanted', head: say('fit_wanted'), figures: true, text: wanted },
  { key: 'fit-women', head: say('fit_women'), group: say('fit_suits'), figures: true, text: ({ women }) => women ?? say('fit_unknown') },
  { key: 'fit-men', head: say('fit_men'), group: say('fit_suits'), figures: true, text: ({ men }) => men ?? say('fit_unknown') },
  { key: 'fit-verdict', head: say('fit_verdict'), text: ({ verdict }) => say(verdict) },
];

/** @param {FitRow} row */
function wanted({ at_least: least, at_most: most, unit }) {
  const figure = (/** @type {number} */ size) => sizeOf(size, unit);
  if (least !== undefined && most !== undefined) return say('fit_between', { least: unit === 'mm' ? wholeLength(least) : number(least, 0), most: figure(most) });
  if (least !== undefined) return say('fit_from', { least: figure(least) });
  return most === undefined ? say('fit_unknown') : say('fit_up_to', { most: figure(most) });
}

/** @param {number} size @param {string} unit */
function sizeOf(size, unit) {
  if (unit === 'mm') return `${wholeLength(size)}\u00a0${lengthUnit()}`;
  return unit === '°' ? `${number(size, 0)}°` : `${number(size, 0)}\u00a0${unit}`;
}

/** The colour of a verdict, and no columns of shares where none is known. @param {HTMLElement} region @param {FitTable} fit */
function markRows(region, { rows }) {
  region.classList.toggle('fit-no-shares', rows.every(({ women, men }) => !women && !men));
  region.querySelectorAll('tbody tr').forEach((line, i) => {
    line.setAttribute('data-verdict', rows[i]?.verdict ?? '');
    line.classList.toggle('fit-no-share', !rows[i]?.women && !rows[i]?.men);
  });
}

/**
 * What was set, and what could not be met, in words.
 * @param {Fitted} fitted
 * @param {ReadonlyMap<string, Knob>} knobs
 */
export function fittedWords({ changed, unmet, worse }, knobs) {
  const line = (/** @type {Fitted['changed'][number]} */ { knob, was, now }) => {
    const row = knobs.get(knob);
    return row ? say('fit_made_one', { label: within(row.label), now: knobValue(row, now), was: knobValue(row, was) }) : knob;
  };
  const sentences = (/** @type {{ plain: string }[]} */ rows) => ({ lines: rows.map(({ plain }) => inUnit(plain)).join(' ') });
  return [
    changed.length > 0 ? say('fit_made', { lines: listed(changed.map(line)) }) : say('fit_same'),
    unmet.length > 0 ? say('fit_unmet', sentences(unmet)) : '',
    worse.length > 0 ? say('fit_worse', sentences(worse)) : '',
  ].filter(Boolean).join(' ');
}
