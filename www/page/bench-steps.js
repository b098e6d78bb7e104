import { el, inStints, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { number } from './format.js';
import { Job } from './job.js';
import { lengthUnit } from './length-unit.js';
import { parsePicture } from './trusted.js';
import { say } from './words.js';

/** @import { BenchStep, WorkPrint, WorkStep } from './messages.d.ts' */

const papers = /** @type {const} */ (['a4', 'letter', 'a3', 'tabloid']);
const prints = /** @type {const} */ (['pages', 'card']);
const formats = /** @type {const} */ (['pdf', 'svg']);

/**
 * The whole order of work: asked for when it is opened, with buttons to print it.
 * @extends {Emitter<{ wanted: null, print: WorkPrint }>}
 */
export class BenchSteps extends Emitter {
  #state = el('p', { class: 'list-note', role: 'status' });
  #paper = el('select', { id: 'work-paper', class: 'quote-field' }, ...papers.map((paper) => el('option', { value: paper, text: say(`work_${paper}`) })));
  #unit = lengthUnit.control('work-unit');
  #run = 0;
  #list = el('ol', { class: 'work-steps', 'aria-label': say('work_order') });
  /** The drawing of pages or cards: one at a time. */
  job = new Job(say('work_order'), (words) => this.tell(words));
  container = el(
    'details',
    { class: 'bench-steps' },
    el('summary', { text: say('work_order') }),
    el('p', { class: 'list-note', text: say('work_note') }),
    el('div', { class: 'sheet-choices' }, labelled('sheet_paper', this.#paper), labelled('sheet_unit', this.#unit)),
    el('div', { class: 'export-buttons' }, ...formats.flatMap((format) => prints.map((print) => this.#button(print, format)))),
    this.#state,
    this.job.container,
    this.#list,
  );

  constructor() {
    super();
    this.container.addEventListener('toggle', () => this.update());
    lengthUnit.on('changed', () => this.update());
  }

  /** The chair is another one, or this was opened. */
  update() {
    if (!this.container.open) return;
    this.#list.classList.add('stale');
    this.emit('wanted', null);
  }

  /** The words at once; pictures, which take long to read, one after the other into the room that is kept for them. @param {BenchStep[]} steps */
  async list(steps) {
    const run = (this.#run += 1);
    this.#list.classList.remove('stale');
    this.#list.setAttribute('aria-busy', 'true');
    const boxes = steps.map(({ picture }) => (picture === null ? undefined : el('div', { class: 'work-picture' })));
    this.#list.replaceChildren(...steps.map(({ step }, i) => this.#step(step, boxes[i])));
    const put = (/** @type {BenchStep} */ { picture }, /** @type {number} */ i) => picture !== null && boxes[i]?.append(parsePicture(picture));
    await inStints([...steps.entries()], ([i, step]) => put(step, i), () => run === this.#run);
    if (run === this.#run) this.#list.setAttribute('aria-busy', 'false');
  }

  /** A button that is switched off would lose the focus, so it only says that it does nothing now. @param {string} words */
  tell(words) {
    setText(this.#state, words);
    const busy = String(this.job.runs);
    this.container.setAttribute('aria-busy', busy);
    for (const button of this.container.querySelectorAll('.export-buttons button')) button.setAttribute('aria-disabled', busy);
  }

  /** @param {'pages' | 'card'} print @param {'pdf' | 'svg'} format */
  #button(print, format) {
    const act = () => this.job.runs || this.emit('print', { print, format, paper: this.#paper.value, unit: lengthUnit.value });
    return el('button', { type: 'button', class: 'plain-button', text: say(`work_print_${print}_${format}`), onclick: act });
  }

  /** @param {WorkStep} step @param {HTMLElement} [picture] */
  #step(step, picture) {
    return el(
      'li',
      { class: 'work-step' },
      el('h3', {}, step.title, ' ', el('span', { class: 'work-minutes', text: step.minutes === undefined ? '' : timeOf(step.minutes) })),
      el('p', { class: 'work-letters', text: step.letters.join(' ') }),
      picture,
      el('div', { class: 'work-words' }, ...step.say.map((text) => el('p', { text })), el('dl', {}, ...linesOf(step))),
    );
  }
}

/** @param {number} minutes */
function timeOf(minutes) {
  const whole = Math.round(minutes);
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  return [hours > 0 && say('work_hours_of', { hours }), (rest > 0 || hours === 0) && say('work_minutes', { minutes: rest })].filter(Boolean).join(' ');
}

/** What is told below the sentences. @param {WorkStep} step */
function linesOf(step) {
  const clamp = (/** @type {WorkStep['clamps'][number]} */ { along, letter, count, told: opening }) => say('work_clamp', { along, letter, count, opening });
  const wait = step.wait_hours === undefined ? [] : [say('work_wait_hours', { hours: number(step.wait_hours, 0) })];
  return [
    ...line('tools', step.tools.length > 0 ? [step.tools.join(say('semicolon'))] : []),
    ...line('clamps', step.clamps.map(clamp)),
    ...line('tapes', step.tapes.map((tape) => tape.say)),
    ...line('checks', step.checks),
    ...line('cautions', step.cautions.map((caution) => `${caution.say} (${caution.source})`)),
    ...line('wait', wait),
  ];
}

/** @param {'tools' | 'clamps' | 'tapes' | 'checks' | 'cautions' | 'wait'} kind @param {string[]} words */
function line(kind, words) {
  if (words.length === 0) return [];
  return [el('dt', { class: `work-${kind}`, text: say(`work_${kind}`) }), ...words.map((text) => el('dd', { class: `work-${kind}`, text }))];
}

/** @param {'sheet_paper' | 'sheet_unit'} word @param {HTMLSelectElement} select */
function labelled(word, select) {
  return el('label', { class: 'quote-label', for: select.id }, el('span', { text: say(word) }), select);
}
