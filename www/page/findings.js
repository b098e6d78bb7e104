import { el } from './dom.js';
import { Emitter } from './emitter.js';
import { number } from './format.js';
import { say } from './words.js';

/** @import { Finding, Report } from './messages.d.ts' */

/** The gauge ends here: beyond, a check fails by so much that the picture says no more. */
const GAUGE_END = 1.5;

/**
 * Checks, the most used limit first, and cautions.
 * @extends {Emitter<{ knob: string }>}
 */
export class Findings extends Emitter {
  #labelOf;
  #list = el('ul', { class: 'findings' });
  #cautions = el('ul', { class: 'cautions' });
  #shown = '';
  container = el('section', {}, el('h3', { text: say('findings') }), this.#list, el('h3', { text: say('cautions') }), this.#cautions);

  /** @param {(knob: string) => string} labelOf a knob's label */
  constructor(labelOf) {
    super();
    this.#labelOf = labelOf;
  }

  /** @param {Report} report */
  update({ findings, cautions }) {
    const now = JSON.stringify([findings, cautions]);
    if (now === this.#shown) return;
    this.#shown = now;
    this.#list.replaceChildren(...(findings.length > 0 ? findings.map((finding) => this.#row(finding)) : [el('li', { text: say('findings_none') })]));
    const lines = cautions.length > 0 ? cautions : [say('cautions_none')];
    this.#cautions.replaceChildren(...lines.map((text) => el('li', { text })));
  }

  /** @param {Finding} finding */
  #row(finding) {
    const { subject, say: words, verdict, source, knob } = finding;
    const figures = say('finding_of', { value: withUnit(finding.value, finding.unit), limit: withUnit(finding.limit, finding.unit) });
    return el(
      'li',
      { class: 'finding', 'data-verdict': verdict },
      el('p', { class: 'finding-head' }, el('span', { class: 'verdict', 'data-verdict': verdict, text: say(verdict) }), el('strong', { text: subject })),
      gauge(finding),
      el('p', { class: 'finding-words', text: words }),
      el('p', { class: 'finding-figures', text: figures }),
      knob ? el('button', { type: 'button', class: 'text-button', text: say('finding_knob', { label: this.#labelOf(knob) }), onclick: () => this.emit('knob', knob) }) : null,
      el('cite', { text: source }),
    );
  }
}

/** A short rule on which the limit is a long tick. @param {Finding} finding */
function gauge({ used }) {
  const made = el('span', { class: 'gauge', role: 'img', 'aria-label': say('finding_used', { percent: number(used * 100, 0) }) }, el('span', { class: 'gauge-used' }));
  made.style.setProperty('--used', `${(Math.min(used, GAUGE_END) / GAUGE_END) * 100}%`);
  made.style.setProperty('--limit', `${100 / GAUGE_END}%`);
  return made;
}

/** @param {number} value @param {string} unit */
function withUnit(value, unit) {
  return unit ? `${number(value, 2)} ${unit}` : number(value, 2);
}
