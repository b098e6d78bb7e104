import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { lengthFigure, lengthUnit, money, number } from './format.js';
import { lengths } from './length.js';
import { sizeOf } from './boards.js';
import { Job } from './job.js';
import { Table } from './table.js';
import { inUnit } from './told-lengths.js';
import { parsePicture } from './trusted.js';
import { listed, say } from './words.js';

/** @import { BoardPlan, ClassPlan, PlanFile, Planned, SetRow, Stack } from './messages.d.ts' */
/** @import { Column } from './table.js' */

/** @type {PlanFile[]} */
const files = ['plan_svg', 'plan_csv', 'plan_json'];

/** As many as an order may hold of one design. */
const MOST = 999;

/** For how many of the chair shown, or for the whole order. @typedef {{ chairs: number, whole: boolean }} SawingWish */

/**
 * How to saw the timber: what to buy for so many chairs, each board to scale, and what sets save. It is worked out only
 * when somebody opens it: a quick plan first, the good one behind it.
 * @extends {Emitter<{ wanted: SawingWish, file: SawingWish & { kind: PlanFile } }>}
 */
export class Sawing extends Emitter {
  #chairs = el('input', { id: 'plan-chairs', class: 'quote-field', type: 'number', min: '1', max: String(MOST), step: '1', value: '1', inputmode: 'numeric' });
  #all = el('option', { value: 'whole' });
  #whole = el('select', { id: 'plan-whole', class: 'quote-field', onchange: () => this.#chosen() }, el('option', { value: '', text: say('plan_chair') }), this.#all);
  #wholeLabel = el('label', { class: 'quote-label plan-whole', for: 'plan-whole', hidden: true }, el('span', { text: say('plan_for') }), this.#whole);
  #chairsLabel = el('label', { class: 'quote-label', for: 'plan-chairs' }, el('span', { text: say('plan_chairs') }), this.#chairs);
  #state = el('p', { class: 'list-note', role: 'status' });
  job = new Job(say('plan'), (words) => this.#told(words));
  /** The making of a file, for which the plan is worked out again. */
  filing = new Job(say('plan'), (words) => this.tell(words));
  #go = el('button', { type: 'submit', class: 'plain-button', text: say('plan_again') });
  #summary = el('p', { class: 'list-note' });
  #classes = el('div', { class: 'plan-classes' });
  #money = { currency: 'EUR', minor_digits: 2 };
  #sets = new Table(say('plan_sets'), this.#columns(), () => []);
  #setsPart = el('section', { hidden: true }, el('h4', { text: say('plan_sets') }), this.#sets.container);
  #files = el('div', { class: 'export-buttons', hidden: true }, ...files.map((kind) => this.#fileButton(kind)));
  #form = el(
    'form',
    { class: 'plan-form', novalidate: true },
    this.#wholeLabel,
    this.#chairsLabel,
    this.#go,
  );
  #details = el(
    'details',
    { class: 'bill-group sawing-group' },
    el('summary', {}, el('span', { text: say('plan') })),
    el('p', { class: 'list-note', text: say('plan_note') }),
    this.#form,
    this.#state,
    this.job.container,
    this.filing.container,
    this.#summary,
    this.#classes,
    this.#setsPart,
    this.#files,
  );
  container = this.#details;
  /** @type {'nothing' | 'working' | 'shown' | 'stale'} */
  #stands = 'nothing';
  /** Whether the plan is that of the whole order. */
  #ofOrder = false;

  constructor() {
    super();
    lengths.on('change', () => this.redraw());
    this.#details.addEventListener('toggle', () => this.#details.open && this.#stands === 'nothing' && this.#want());
    this.#form.addEventListener('submit', (event) => {
      event.preventDefault();
      this.#want();
    });
  }

  /** The chair or the workshop has changed: nothing of the old plan stays, but for one of the order when only the chair did. @param {boolean} order whether the order or the workshop has changed */
  stale(order) {
    if (this.#stands === 'nothing' || this.#stands === 'stale' || this.#ofOrder !== order) return;
    this.job.giveWay();
    this.#clear();
    this.#stands = 'stale';
    setText(this.#state, say('plan_stale'));
  }

  /** Offers a plan for all of the order. @param {{ chairs: number, designs: number }} [order] nothing where there is none */
  offerOrder(order) {
    this.#wholeLabel.hidden = !order;
    if (!order) this.#whole.value = '';
    else setText(this.#all, say('plan_order', { count: order.chairs, designs: say('designs_of', { count: order.designs }) }));
    this.#chosen();
  }

  #chosen() {
    this.#chairsLabel.hidden = this.#whole.value !== '';
  }

  /** The page's colours, or what lengths are written in, have changed. */
  redraw() {
    if (this.#stands === 'shown') this.#want();
  }

  #want() {
    const wish = this.#wish;
    if (!wish.whole && !this.#chairs.checkValidity()) {
      this.#chairs.focus();
      return setText(this.#state, say('plan_wrong', { why: this.#chairs.validationMessage, most: MOST }));
    }
    this.#ofOrder = wish.whole;
    this.emit('wanted', wish);
  }

  /** @returns {SawingWish} */
  get #wish() {
    return { chairs: Math.trunc(Number(this.#chairs.value)) || 1, whole: this.#whole.value !== '' };
  }

  /** What the job tells of itself: that it has begun, or that it was stopped. @param {string} words */
  #told(words) {
    const some = this.#classes.childElementCount > 0;
    if (this.job.runs) this.#stands = 'working';
    else this.#stands = some ? 'shown' : 'stale';
    setText(this.#state, this.job.runs || !some ? words : say('plan_stopped_some'));
  }

  #clear() {
    setText(this.#summary, '');
    this.#classes.replaceChildren();
    this.#setsPart.hidden = true;
    this.#files.hidden = true;
  }

  /** @param {string} why */
  fail(why) {
    this.#clear();
    this.#stands = 'stale';
    setText(this.#state, why);
  }

  /** @param {Planned} planned @param {boolean} last whether nothing better follows */
  update({ plan, boards }, last) {
    this.#money = plan;
    this.#files.hidden = false;
    setText(this.#state, last ? say('plan_sets_working') : say('plan_better'));
    setText(this.#summary, [this.#words(plan), this.#ofOrder && say('plan_order_note')].filter(Boolean).join(' '));
    this.#classes.replaceChildren(...plan.classes.map((one, i) => this.#class(one, boards[i] ?? [])));
  }

  /** @param {SetRow[]} rows */
  showSets(rows) {
    this.#sets.update(rows);
    this.#setsPart.hidden = false;
    this.end();
  }

  /** Nothing more is being worked out. */
  end() {
    this.#stands = 'shown';
    setText(this.#state, '');
  }

  /** @param {string} words */
  tell(words) {
    setText(this.#state, words);
  }

  /** @param {Planned['plan']} plan */
  #words({ chairs, cost_minor: cost, credit_minor: credit, above_bound: above, yield: used, bound_minor: bound }) {
    const amount = money(cost, this.#money);
    return [
      say('plan_cost', { count: chairs, amount }),
      credit > 0 ? say('plan_credit', { amount: money(credit, this.#money) }) : '',
      cost > bound ? say('plan_above', { percent: number(100 * above, 1) }) : say('plan_best'),
      say('plan_used', { percent: number(100 * used, 0), waste: number(100 - 100 * used, 0) }),
    ]
      .filter(Boolean)
      .join(' ');
  }

  /** @param {ClassPlan} one @param {string[]} drawings */
  #class({ species, thickness, thickness_mm: mm, buy, rack, notes, boards, missing }, drawings) {
    const list = [...rack.map((stack) => this.#stack(stack, 'plan_take')), ...buy.map((stack) => this.#stack(stack, 'plan_buy'))];
    const lacks = missing.map(({ letter, part, count, length, width }) => say('plan_missing', { count, letter, part, size: sizeOf({ length, width, count, each_minor: 0 }), unit: lengthUnit() }));
    return el(
      'section',
      { class: 'plan-class' },
      el('h4', { text: listed([species, thickness ?? `${lengthFigure(mm)} ${lengthUnit()}`]) }),
      el('ul', { class: 'plan-list' }, ...list.map((text) => el('li', { text })), ...lacks.map((text) => el('li', { class: 'plan-missing', text }))),
      ...notes.map((text) => el('p', { class: 'list-note', text: inUnit(text) })),
      ...boards.map((board, i) => this.#board(board, drawings[i] ?? '')),
    );
  }

  /** @param {Stack} stack @param {'plan_take' | 'plan_buy'} word */
  #stack(stack, word) {
    return say(word, { count: stack.count, size: sizeOf(stack), unit: lengthUnit(), amount: money(stack.each_minor, this.#money) });
  }

  /** @param {BoardPlan} board @param {string} drawing */
  #board({ length, width, times, yield: used }, drawing) {
    const words = say('plan_board', { count: times, size: sizeOf({ length, width, count: times, each_minor: 0 }), unit: lengthUnit(), percent: number(100 * used, 0) });
    const region = el('section', { class: 'board-region', tabindex: '0', 'aria-label': words });
    if (drawing) region.append(parsePicture(drawing));
    return el('figure', { class: 'board' }, el('figcaption', { text: words }), region);
  }

  /** @param {PlanFile} kind */
  #fileButton(kind) {
    return el('button', { type: 'button', class: 'plain-button', text: say(`file_${kind}`), onclick: () => this.emit('file', { kind, ...this.#wish }) });
  }

  /** @returns {Column<SetRow>[]} */
  #columns() {
    return [
      { key: 'chairs', head: say('breaks_chairs'), figures: true, text: ({ chairs }) => String(chairs) },
      { key: 'boards', head: say('boards_count'), figures: true, text: ({ boards }) => String(boards) },
      { key: 'each', head: say('plan_each'), figures: true, text: ({ each_minor: each }) => money(each, this.#money) },
      { key: 'amount', head: say('plan_total'), figures: true, text: ({ cost_minor: cost }) => money(cost, this.#money) },
      { key: 'used', head: say('plan_share'), figures: true, text: ({ yield: used }) => `${number(100 * used, 0)} %` },
    ];
  }
}
