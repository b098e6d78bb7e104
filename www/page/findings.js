import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { lengthUnit, number } from './format.js';
import { lengths } from './length.js';
import { inUnit, proseFigure } from './told-lengths.js';
import { say } from './words.js';

/** @import { Finding, Report } from './messages.d.ts' */

/** The gauge ends here: beyond, a check fails by so much that the picture says no more. */
const GAUGE_END = 1.5;

/**
 * Checks, the most used limit first, and cautions.
 * @extends {Emitter<{ knob: string, wanted: void }>}
 */
export class Findings extends Emitter {
  #labelOf;
  #list = el('ul', { class: 'findings' });
  #cautions = el('ul', { class: 'cautions' });
  #shown = '';
  /** What is sound is counted, and shown to whoever asks. */
  #sound = el('ul', { class: 'findings' });
  #soundHead = el('summary', { onclick: () => this.#fillSound() });
  #soundBox = el('details', { class: 'findings-sound' }, this.#soundHead, this.#sound);
  #left = false;
  /** What is sound, once it is shown. @type {Finding[]} */
  #unfilled = [];
  #none = el('p', { text: say('findings_none') });
  container = el('section', {}, el('h3', { text: say('findings') }), this.#none, this.#list, this.#soundBox, el('h3', { text: say('cautions') }), this.#cautions);

  /** @param {(knob: string) => string} labelOf a knob's label */
  constructor(labelOf) {
    super();
    this.#labelOf = labelOf;
    this.#soundBox.addEventListener('toggle', () => {
      if (!this.open) return;
      this.#fillSound();
      this.#ask();
    });
  }

  /** Asks for those that are sound where they are looked at and a report has left them out. */
  #ask() {
    if (this.open && this.#left) this.emit('wanted', undefined);
  }

  /** Whether those that are sound are looked at; else a report need not tell them. */
  get open() {
    return this.#soundBox.open;
  }

  /** @param {Report} report */
  update({ findings, sound: count, cautions }) {
    const now = lengths.unit + JSON.stringify([findings, count, cautions]);
    if (now === this.#shown) return;
    this.#shown = now;
    const sound = findings.filter(({ verdict }) => verdict === 'sound');
    const others = findings.filter(({ verdict }) => verdict !== 'sound');
    this.#list.replaceChildren(...others.map((finding) => this.#row(finding)));
    this.#sound.replaceChildren();
    this.#unfilled = sound;
    if (this.open) this.#fillSound();
    this.#soundBox.hidden = count === 0;
    setText(this.#soundHead, say(others.length > 0 ? 'findings_sound' : 'findings_all_sound', { count }));
    this.#none.hidden = count + others.length > 0;
    this.#list.hidden = others.length === 0;
    const lines = cautions.length > 0 ? cautions : [say('cautions_none')];
    this.#cautions.replaceChildren(...lines.map((text) => el('li', { text })));
    this.#left = sound.length < count;
    this.#ask();
  }

  #fillSound() {
    const sound = this.#unfilled;
    this.#unfilled = [];
    this.#sound.append(...sound.map((finding) => this.#row(finding)));
  }

  /** @param {Finding} finding */
  #row(finding) {
    const { subject, plain, say: words, verdict, source, knob } = finding;
    const figures = say('finding_of', { value: withUnit(finding.value, finding.unit), limit: withUnit(finding.limit, finding.unit) });
    return el(
      'li',
      { class: 'finding', 'data-verdict': verdict },
      el('p', { class: 'finding-head' }, el('span', { class: 'verdict', 'data-verdict': verdict, text: say(verdict) }), el('strong', { text: subject })),
      gauge(finding),
      el('div', { class: 'finding-words' }, el('p', { text: inUnit(plain) }), el('p', { class: 'finding-maker', text: inUnit(words) })),
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
  if (unit === 'mm') return `${proseFigure(value, 2)} ${lengthUnit()}`;
  return unit ? `${number(value, 2)} ${unit}` : number(value, 2);
}

/** How many checks are not sound, as a remark for the tab; empty where all are. @param {Report} report */
export function remarkOf({ findings: all }) {
  const count = all.filter(({ verdict }) => verdict !== 'sound').length;
  return count > 0 ? String(count) : '';
}
