import { el } from './dom.js';
import { plainDigits } from './format.js';
import { told } from './setup-told.js';

/** @import { Field } from './setup-fields.js' */

/** @typedef {Record<string, any>} Plain */

/** Fields on the page, each with its place in a file. */
export class Form {
  /** @type {Map<string, { field: Field, input: HTMLInputElement | HTMLSelectElement }>} */
  #inputs = new Map();
  #groups;
  said = el('p', { class: 'setup-said', role: 'status' });

  /** @param {HTMLFormElement} form @param {readonly { head: string, fields: readonly Field[] }[]} groups */
  constructor(form, groups) {
    this.form = form;
    this.#groups = groups;
    for (const { head, fields } of groups) form.append(this.#group(head, fields));
  }

  /** @param {string} head @param {readonly Field[]} fields */
  #group(head, fields) {
    return el('fieldset', {}, el('legend', { text: head }), el('div', { class: 'setup-fields' }, ...fields.map((field) => this.add(field))));
  }

  /** @param {Field} field */
  add(field) {
    const id = `${this.form.id}-${field.at.replaceAll('.', '-')}`;
    const help = field.help && el('span', { class: 'setup-help', id: `${id}-help`, text: field.help });
    const traits = { id, 'aria-describedby': help ? `${id}-help` : undefined };
    const input = field.choices
      ? el('select', traits, ...field.choices.map(([value, text]) => el('option', { value, text })))
      : el('input', { ...traits, type: field.kind === 'colour' ? 'color' : 'text', dir: field.kind === 'text' || field.kind === 'lines' ? 'auto' : undefined, inputmode: field.kind ? 'text' : 'decimal', autocomplete: 'off', spellcheck: 'false' });
    input.addEventListener('input', () => input.removeAttribute('aria-invalid'));
    this.#inputs.set(field.at, { field, input });
    const unit = field.unit && el('span', { class: 'setup-unit', 'data-unit': field.unit, text: field.unit });
    return el('div', { class: 'setup-field' }, el('label', { for: id, text: field.label }), el('span', { class: 'setup-line' }, input, unit), help);
  }

  /** Shows what stands in a file. @param {Plain} file */
  fill(file) {
    for (const [at, { field, input }] of this.#inputs) input.value = text(field, reach(file, at.split('.')) ?? field.absent);
  }

  /** @param {string} at */
  value(at) {
    return this.#inputs.get(at)?.input.value.trim() ?? '';
  }

  /** @param {string} at @param {(input: HTMLElement) => void} act */
  on(at, act) {
    const input = this.#inputs.get(at)?.input;
    input?.addEventListener('input', () => act(input));
  }

  /** Puts what was filled in into a file. @param {Plain} file */
  put(file) {
    for (const { fields } of this.#groups) for (const field of fields) this.#putOne(file, field);
  }

  /** @param {Plain} file @param {Field} field */
  #putOne(file, field) {
    const names = field.at.split('.');
    const last = names.pop() ?? '';
    const value = read(field, this.value(field.at));
    if (value !== undefined) return void (reach(file, names, true)[last] = value);
    const holder = reach(file, names);
    if (!holder) return;
    delete holder[last];
    // An object that only held this is not left behind empty.
    const outer = reach(file, names.slice(0, -1));
    if (names.length > 0 && Object.keys(holder).length === 0) delete outer[names.at(-1) ?? ''];
  }

  /**
   * Says what is wrong, and goes to the field that it is about.
   * @param {{ where: string, why: string }} refusal
   * @param {{ label: string, input: HTMLElement | undefined }} [about] what it is about, where that is none of the fields
   */
  refuse({ where, why }, about) {
    if (about) return this.#say(told('pair', { name: about.label, value: why }), about.input);
    const found = [...this.#inputs].find(([at]) => where === at || where.startsWith(`${at}[`)) ?? [...this.#inputs].find(([at]) => at.startsWith(where));
    this.#say(told('pair', { name: found?.[1].field.label ?? where, value: why }), found?.[1].input);
  }

  /** @param {string} words @param {HTMLElement} [input] */
  #say(words, input) {
    this.said.setAttribute('role', 'alert');
    this.said.textContent = words;
    input?.setAttribute('aria-invalid', 'true');
    input?.focus();
  }

  /** @param {string} words */
  tell(words) {
    this.said.setAttribute('role', 'status');
    this.said.textContent = words;
  }
}

/** What stands at a place; with `make`, objects on the way are made. @param {Plain} file @param {string[]} names @param {boolean} [make] */
function reach(file, names, make = false) {
  let at = file;
  for (const name of names) {
    if (make) at[name] ??= {};
    at = at?.[name];
  }
  return at;
}

/** @param {Field} field @param {any} value */
function text(field, value) {
  if (value === undefined || value === null) return '';
  if (field.kind === 'widths') return value.join(' ');
  if (field.kind === 'lines') return value.join(', ');
  return String(value);
}

/** What is written into the file; nothing for an empty field that may be left out. @param {Field} field @param {string} typed */
function read(field, typed) {
  if (typed === '' && field.optional) return undefined;
  if (field.choices || field.kind === 'text' || field.kind === 'colour') return typed;
  if (field.kind === 'lines') return typed.split(',').map((line) => line.trim()).filter(Boolean);
  if (field.kind === 'widths') return typed.split(/[\s;]+/).filter(Boolean).map(number);
  return number(typed);
}

/** A number as people write it, with a point or a comma; what is none stays as it is, and the core says so. @param {string} typed */
export function number(typed) {
  const plain = plainDigits(typed).replace(',', '.');
  return plain !== '' && Number.isFinite(Number(plain)) ? Number(plain) : typed;
}
