import { el } from './dom.js';
import { Emitter } from './emitter.js';
import { inUnit } from './told-lengths.js';
import { say, within } from './words.js';

/** @import { Seen } from './messages.d.ts' */

/**
 * What customers should know of the chair as it stands: whom it suits, and what is not sound.
 * @extends {Emitter<{ knob: string }>}
 */
export class Advice extends Emitter {
  #labelOf;

  /** @param {HTMLElement} container @param {(knob: string) => string} labelOf a knob's label */
  constructor(container, labelOf) {
    super();
    this.container = container;
    this.#labelOf = labelOf;
  }

  /** @param {Seen} seen */
  update({ concerns, fit, cautions }) {
    const lines = concerns.map(({ plain, verdict, knob }) => {
      const go = knob && el('button', { type: 'button', class: 'text-button', text: say('finding_knob', { label: this.#labelOf(knob) }), onclick: () => this.emit('knob', knob) });
      return el('li', { 'data-verdict': verdict }, el('p', { text: inUnit(plain) }), go);
    });
    const suits = fit && !concerns.some(({ topic }) => topic === 'fit');
    const well = suits && el('p', { class: 'advice-well', text: say('fit_well', { who: inUnit(within(fit.who)) }) });
    const caveat = fit && more('fit_caveat', [fit.caveat]);
    const safe = more('cautions', cautions);
    this.container.replaceChildren(...[well, lines.length > 0 && el('ul', { class: 'advice-list' }, ...lines), caveat, safe].filter((part) => part instanceof Node));
  }
}

/** Words that open. @param {'fit_caveat' | 'cautions'} head @param {string[]} words */
function more(head, words) {
  return el('details', { class: 'advice-more' }, el('summary', { text: say(head) }), ...words.map((text) => el('p', { text: inUnit(text) })));
}
