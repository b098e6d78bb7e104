import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { knobFigure, knobValue, number, parseTyped, spoken, unitWords } from './format.js';
import { holdsWords } from './holds.js';
import { readTyped } from './knob-typing.js';
import { lengths } from './length.js';
import { Ruler } from './ruler.js';
import { say } from './words.js';

/** @import { Knob, SafeRange, Value } from './messages.d.ts' */

/** Up to so many choices are laid out at once; more go into a list that opens. */
const CHOICES_LAID_OUT = 4;

/**
 * One knob: its label, a control made for its kind, its help, and what is wrong with what was typed.
 * @extends {Emitter<{ change: { name: string, value: Value }, help: { knob: Knob, box: HTMLElement } }>}
 */
export class KnobControl extends Emitter {
  /** @type {Value} */
  #value;
  #knob;
  #id;
  #problem = el('p', { class: 'knob-problem', role: 'alert', hidden: true });
  #back = el('button', { class: 'knob-back', type: 'button', hidden: true });
  #holds = el('p', { class: 'knob-holds' });
  /** @type {(value: Value) => void} */
  #show;
  /** @type {((range: SafeRange | undefined) => void) | undefined} draws where it holds */
  #band;

  /** @param {Knob} knob */
  constructor(knob) {
    super();
    this.#knob = knob;
    this.#value = knob.default;
    this.#id = `knob-${knob.name}`;
    const help = el('p', { class: 'knob-help', id: `${this.#id}-help`, text: knob.help, hidden: true });
    this.#holds.id = `${this.#id}-holds`;
    // Filled when somebody asks what the knob is.
    const figure = el('div', { class: 'knob-figure', hidden: true });
    const { box, field, show, band } = this.#control();
    this.#show = show;
    this.#band = band;
    this.#problem.id = `${this.#id}-problem`;
    this.#back.addEventListener('click', () => this.#set(knob.default));
    this.container = el(
      'div',
      { class: `knob knob-${knob.kind}`, 'data-knob': knob.name },
      el('div', { class: 'knob-head' }, this.#label(), this.#helpButton(help, figure), this.#back, field),
      box,
      this.#problem,
      help,
      figure,
      this.#holds,
    );
    this.update(knob.default);
  }

  /** Whether it is made for just this knob. @param {Knob} knob */
  isOf(knob) {
    return JSON.stringify(knob) === JSON.stringify(this.#knob);
  }

  /** @param {Value} value */
  update(value) {
    this.#value = value;
    this.#show(value);
    this.complain('');
    const changed = value !== this.#knob.default;
    this.#back.hidden = !changed;
    if (!changed) return;
    const start = knobValue(this.#knob, this.#knob.default);
    setText(this.#back, start);
    const name = say('knob_default_name', { label: this.#knob.label, value: start });
    this.#back.setAttribute('aria-label', name);
    this.#back.title = name;
  }

  /**
   * Says what is wrong with what the field holds; the field keeps it.
   * @param {string} why empty when all is well
   */
  complain(why) {
    if (this.#problem.textContent === why) return;
    this.#problem.textContent = why;
    this.#problem.hidden = why === '';
    this.container.classList.toggle('wrong', why !== '');
    const field = this.container.querySelector('.knob-field');
    if (!field) return;
    field.setAttribute('aria-invalid', String(why !== ''));
    if (why) field.setAttribute('aria-describedby', this.#problem.id);
    else field.setAttribute('aria-describedby', this.#holds.id);
  }

  /**
   * Shows where it holds; nothing while that is not known.
   * @param {SafeRange} [range] @param {number} [failing] how many checks fail already
   */
  holds(range, failing = 0) {
    const words = range ? holdsWords(this.#knob, range, failing) : '';
    if (words === this.#holds.textContent) return;
    setText(this.#holds, words);
    this.#band?.(range);
  }

  /** Marks the knob as one of those that clash. @param {boolean} clashing */
  clash(clashing) {
    this.container.classList.toggle('clash', clashing);
  }

  /** @param {boolean} applies */
  applies(applies) {
    this.container.hidden = !applies;
  }

  focus() {
    const control = /** @type {HTMLElement | null} */ (this.container.querySelector('input, select'));
    this.container.scrollIntoView({ block: 'center' });
    control?.focus({ preventScroll: true });
  }

  #label() {
    const { kind, label } = this.#knob;
    return kind === 'choice' && this.#laidOut()
      ? el('span', { class: 'knob-label', id: `${this.#id}-label`, text: label })
      : el('label', { class: 'knob-label', id: `${this.#id}-label`, for: this.#id, text: label });
  }

  /** @param {HTMLElement} help @param {HTMLElement} figure */
  #helpButton(help, figure) {
    const button = el('button', {
      class: 'knob-ask',
      type: 'button',
      text: '?',
      'aria-label': say('help', { label: this.#knob.label }),
      'aria-expanded': 'false',
      'aria-controls': help.id,
    });
    button.addEventListener('click', () => {
      help.hidden = !help.hidden;
      figure.hidden = help.hidden;
      if (!help.hidden) this.emit('help', { knob: this.#knob, box: figure });
      button.setAttribute('aria-expanded', String(!help.hidden));
    });
    return button;
  }

  #laidOut() {
    return (this.#knob.choices ?? []).length <= CHOICES_LAID_OUT;
  }

  /** @returns {{ box?: HTMLElement, field?: HTMLElement, show: (value: Value) => void, band?: (range: SafeRange | undefined) => void }} */
  #control() {
    if (this.#knob.kind === 'range') return this.#range();
    if (this.#knob.kind === 'count') return this.#count();
    return this.#laidOut() ? this.#radios() : this.#select();
  }

  #range() {
    const knob = this.#knob;
    const ruler = new Ruler({ ...scaleOf(knob), mark: Number(knob.default), label: knob.label });
    ruler.on('input', (value) => this.#set(value));
    const { field, input } = this.#field();
    /** @param {Value} value */
    const show = (value) => {
      ruler.update(Number(value), spoken(knob, Number(value)));
      if (document.activeElement !== input || this.#typed(input.value) !== value) input.value = knobFigure(knob, Number(value));
    };
    ruler.describe(this.#holds.id);
    /** @param {SafeRange} [range] */
    const band = (range) => {
      const { low, high } = range?.span ?? {};
      ruler.band(low && high && { low: low.value, high: high.value, stops: [low.stop !== null, high.stop !== null] });
      ruler.container.title = this.#holds.textContent ?? '';
    };
    return { box: ruler.container, field, show, band };
  }

  #count() {
    const knob = this.#knob;
    const { field, input } = this.#field();
    /** @param {number} by @param {string} sign @param {'fewer' | 'more'} word */
    const button = (by, sign, word) =>
      el('button', { class: 'stepper-button', type: 'button', text: sign, 'aria-label': say(word, { label: knob.label }), onclick: () => this.#stepBy(by) });
    const fewer = button(-knob.step, '−', 'fewer');
    const more = button(knob.step, '+', 'more');
    /** @param {Value} value */
    const show = (value) => {
      if (document.activeElement !== input || this.#typed(input.value) !== value) input.value = number(Number(value), 0);
      fewer.disabled = Number(value) <= knob.min;
      more.disabled = Number(value) >= knob.max;
    };
    return { field: el('div', { class: 'stepper' }, fewer, field, more), show };
  }

  /** @param {number} by */
  #stepBy(by) {
    const { min, max } = this.#knob;
    this.#set(Math.min(max, Math.max(min, Number(this.#value) + by)));
  }

  #field() {
    const knob = this.#knob;
    const input = el('input', {
      class: 'knob-field',
      id: this.#id,
      type: 'text',
      inputmode: 'decimal',
      autocomplete: 'off',
      spellcheck: 'false',
      maxlength: '16',
    });
    input.addEventListener('change', () => this.#typedIn(input));
    input.addEventListener('keydown', (event) => this.#key(event, input));
    input.setAttribute('aria-describedby', this.#holds.id);
    const unit = knob.unit ? el('span', { class: 'knob-unit', text: unitWords(knob.unit) }) : null;
    return { input, field: el('span', { class: 'knob-entry' }, input, unit) };
  }

  /** Up and down step a typed field, as they do a slider. @param {KeyboardEvent} event @param {HTMLInputElement} input */
  #key(event, input) {
    if (event.key === 'Enter') this.#typedIn(input);
    const step = stepOf(this.#knob);
    const by = { ArrowUp: step, ArrowDown: -step }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    this.#stepBy(by);
    input.value = knobFigure(this.#knob, Number(this.#value));
  }

  /** @param {string} text */
  #typed(text) {
    return parseTyped(text, this.#knob.unit);
  }

  /** @param {HTMLInputElement} input */
  #typedIn(input) {
    // What stands there unchanged is the exact value, of which a fraction tells only a part.
    if (input.value === knobFigure(this.#knob, Number(this.#value))) return this.update(this.#value);
    const { value, why } = readTyped(this.#knob, input.value);
    if (why || value === undefined) this.complain(why);
    else if (value === this.#value) this.update(value);
    else this.#set(value);
  }

  #radios() {
    const knob = this.#knob;
    const inputs = (knob.choices ?? []).map(({ name }) => {
      const input = el('input', { type: 'radio', name: this.#id, value: name });
      input.addEventListener('change', () => this.#set(name));
      return input;
    });
    const options = inputs.map((input, i) => el('label', { class: 'choice' }, input, el('span', { text: knob.choices?.[i]?.label })));
    const box = el('div', { class: 'choices', role: 'radiogroup', 'aria-labelledby': `${this.#id}-label`, 'aria-describedby': this.#holds.id }, ...options);
    /** @param {Value} value */
    const show = (value) => inputs.forEach((input) => (input.checked = input.value === value));
    /** @param {SafeRange} [range] */
    const band = (range) => {
      const why = stopsOf(range);
      options.forEach((option, i) => mark(option, why.get(inputs[i]?.value ?? '')));
    };
    return { box, show, band };
  }

  #select() {
    const knob = this.#knob;
    const options = (knob.choices ?? []).map(({ name, label }) => el('option', { value: name, text: label }));
    const select = el('select', { id: this.#id, class: 'knob-select', 'aria-describedby': this.#holds.id }, ...options);
    select.addEventListener('change', () => this.#set(select.value));
    /** @param {Value} value */
    const show = (value) => {
      select.value = String(value);
    };
    /** @param {SafeRange} [range] */
    const band = (range) => {
      const why = stopsOf(range);
      options.forEach((option, i) => {
        const label = knob.choices?.[i]?.label ?? '';
        setText(option, why.has(option.value) ? say('choice_fails', { label }) : label);
      });
    };
    return { box: select, show, band };
  }

  /** @param {Value} value */
  #set(value) {
    this.update(value);
    this.emit('change', { name: this.#knob.name, value });
  }
}

/** What stops each possibility of a choice, by its name. @param {SafeRange} [range] @returns {Map<string, string>} */
function stopsOf(range) {
  return new Map((range?.picks ?? []).flatMap(({ name, stop }) => (stop ? [[name, stop.say]] : [])));
}

/** @param {HTMLElement} option @param {string | undefined} why */
function mark(option, why) {
  option.toggleAttribute('data-stop', why !== undefined);
  option.title = why ?? '';
}

/** In steps of the unit that lengths are shown in. @param {Knob} knob */
export function stepOf({ unit, step }) {
  return unit === 'mm' ? lengths.step(step) : step;
}

/** What the rule of a knob shows: round figures of the unit that lengths are shown in. @param {Knob} knob */
function scaleOf(knob) {
  const { min, max, unit } = knob;
  if (unit !== 'mm' || lengths.unit === 'mm') return { min, max, step: knob.step };
  const step = stepOf(knob);
  const write = (/** @type {number} */ value) => knobFigure(knob, value, 2);
  if (lengths.unit === 'cm') return { min, max, step, size: lengths.size, write };
  return { min: Math.ceil(min / step) * step, max: Math.floor(max / step) * step, step, size: lengths.size, write };
}
