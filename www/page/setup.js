// Setting up: a maker's own book and showroom, from nothing to the files that are published. A page of its own, so that the
// Workshop does not load it.
import { Bridge } from './bridge.js';
import { download } from './design-file.js';
import { byId, el } from './dom.js';
import { languageMenu } from './language-menu.js';
import { Scheme } from './scheme.js';
import { Form, number } from './setup-form.js';
import { bookFields, opened, roomFields, showroomTags } from './setup-fields.js';
import { told } from './setup-told.js';
import { keep, kept } from './store.js';
import { tellTrouble } from './trouble.js';
import { fillWords, speech } from './words.js';

/** @import { Design, Kind, Knob } from './messages.d.ts' */
/** @import { Plain } from './setup-form.js' */

const COMMAND = 'cargo run -- publish --showroom showroom.json --shop shop.json --out chairs';

const bridge = new Bridge();
bridge.on('lost', tellTrouble);
fillWords(document, told);
byId('head-acts').append(languageMenu('language'));
const scheme = new Scheme();
document.documentElement.dataset.scheme = scheme.shown;
scheme.on('change', (shown) => (document.documentElement.dataset.scheme = shown));

/** The book: fields, and a price for each timber in stock. */
class Book {
  #form = new Form(byId('book', HTMLFormElement), bookFields);
  /** @type {Map<string, HTMLInputElement>} */
  #timbers = new Map();
  #base;

  /** @param {Plain} base what stands where nothing is filled in @param {boolean} isOwn @param {Knob} species */
  constructor(base, isOwn, species) {
    this.#base = base;
    this.#form.fill({ ...base, pace: 100, ...(isOwn ? {} : { name: '' }) });
    this.#form.form.append(this.#timber(species, isOwn), acts(this.#form, [[told('setup_use'), true, () => this.use()], [told('setup_save_shop'), false, () => this.save()]]));
    this.#form.on('currency', () => this.#units());
    this.#units();
  }

  /** Which timber is in stock, at which price. @param {Knob} species @param {boolean} isOwn */
  #timber(species, isOwn) {
    const rows = new Map(this.#base.timber.species.map((/** @type {Plain} */ row) => [row.species, row.price]));
    const fields = (species.choices ?? []).map(({ name, label }) => {
      const input = el('input', { type: 'text', inputmode: 'decimal', id: `timber-${name}`, autocomplete: 'off', placeholder: isOwn ? '' : told('setup_such_as', { price: rows.get(name) ?? 1500 }) });
      input.addEventListener('input', () => input.removeAttribute('aria-invalid'));
      input.value = isOwn ? String(rows.get(name) ?? '') : '';
      this.#timbers.set(name, input);
      return el('div', { class: 'setup-field' }, el('label', { for: input.id, text: label }), el('span', { class: 'setup-line' }, input, el('span', { 'data-unit': 'money / m³', class: 'setup-unit' })));
    });
    const note = told('setup_timber_note');
    return el('fieldset', {}, el('legend', { text: told('setup_timber') }), el('p', { class: 'setup-help', text: note }), el('div', { class: 'setup-fields' }, ...fields));
  }

  #units() {
    // A code of three letters (ISO 4217); what else may be typed there is refused when the book is used.
    const typed = this.#form.value('currency');
    const currency = /^[a-z]{3}$/i.test(typed) ? typed : told('setup_money');
    const measure = this.#base.timber.measure === 'board_foot' ? told('setup_board_foot') : 'm³';
    for (const unit of document.querySelectorAll('[data-unit]')) {
      unit.textContent = (unit.getAttribute('data-unit') ?? '').replace('money', currency).replace('m³', measure);
    }
  }

  /** The file as it is filled in. */
  file() {
    const file = structuredClone(this.#base);
    this.#form.put(file);
    paced(file, file.pace);
    delete file.pace;
    if (this.#form.value('pricing.rounding.to') === '') delete file.pricing.rounding;
    delete file.note;
    if (file.thicknesses !== this.#base.thicknesses) delete file.stock;
    const known = new Map(this.#base.timber.species.map((/** @type {Plain} */ row) => [row.species, row]));
    file.timber.species = [...this.#timbers].filter(([, { value }]) => value.trim() !== '').map(([species, { value }]) => timberRow(known.get(species), species, number(value.trim())));
    return file;
  }

  /** Whether the core takes it; else what is wrong is said beside its field. */
  async good() {
    const file = this.file();
    const answer = await bridge.ask('readShop', JSON.stringify(file));
    if (answer.ok) return file;
    const at = /^timber\.species(?:\[(\d+)\])?/.exec(answer.error.where);
    this.#form.refuse(answer.error, at ? this.#priced(Number(at[1] ?? 0)) : undefined);
    return undefined;
  }

  /** The field of the timber that stands at a place in the file; the first where none does. @param {number} place */
  #priced(place) {
    const filled = [...this.#timbers.values()].filter(({ value }) => value.trim() !== '');
    return { label: told('setup_timber'), input: filled[place] ?? [...this.#timbers.values()][0] };
  }

  async use() {
    const file = await this.good();
    if (!file) return undefined;
    const good = keep('shop', JSON.stringify(file, null, 2));
    this.#base = file;
    this.#form.fill({ ...file, pace: 100 });
    this.#form.tell(good ? told('setup_used', { name: file.name }) : told('setup_unkept'));
    return file;
  }

  async save() {
    const file = await this.use();
    if (file) give('shop.json', file);
  }
}

/** The row of a timber: prices of single thicknesses stay where its price does. @param {Plain | undefined} known @param {string} species @param {number | string} price */
function timberRow(known, species, price) {
  return known?.price === price ? known : { species, price };
}

/** All times as a share of what they were. @param {Plain} file @param {unknown} pace percent */
function paced(file, pace) {
  if (typeof pace !== 'number' || pace === 100 || !(pace > 0)) return;
  const scaled = (/** @type {number} */ minutes) => Math.round(minutes * pace) / 100;
  const walk = (/** @type {Plain} */ at) => {
    for (const [name, value] of Object.entries(at)) {
      if (typeof value === 'number') at[name] = scaled(value);
      else walk(value);
    }
  };
  walk(file.labour.operations);
  walk(file.labour.joints);
}

/** The showroom: who the maker is, what is told, which chairs are on offer. */
class Room {
  /** Whether this browser keeps it. */
  #stays = true;
  #form = new Form(byId('room', HTMLFormElement), roomFields);
  #base;
  #own;
  /** @type {Map<string, { tick: HTMLInputElement, name: HTMLInputElement }>} */
  #offers = new Map();
  /** @type {Map<string, HTMLInputElement>} */
  #open = new Map();

  /** @param {Plain} base @param {Kind[]} kinds @param {Design | undefined} own the chair on the Workshop */
  constructor(base, kinds, own) {
    this.#base = base;
    this.#own = own;
    const offers = [...(own ? [{ name: '', label: told('setup_own_chair') }] : []), ...kinds];
    this.#form.form.append(
      group(told('setup_offers'), told('setup_offers_note'), offers.map((kind) => this.#offer(kind))),
      group(told('setup_open'), told('setup_open_note'), opened.map(({ knob, label }) => this.#opened(knob, label))),
      acts(this.#form, [[told('setup_see'), true, () => this.see()], [told('setup_save_room'), false, () => this.save()]]),
    );
  }

  /** @param {Plain} book */
  begin(book) {
    this.#base.currency = book.currency;
    this.#form.fill({ ...this.#base, brand: book.name });
    byId('room').hidden = false;
    byId('publish').hidden = false;
  }

  /** @param {{ name: string, label: string }} kind */
  #offer({ name, label }) {
    const tick = el('input', { type: 'checkbox', id: `offer-${name}` });
    const called = el('input', { type: 'text', dir: 'auto', 'aria-label': told('setup_called', { label }), maxlength: '60', autocomplete: 'off' });
    called.value = label;
    if (name === '') called.value = told('setup_our_chair');
    tick.checked = name === (this.#own ? '' : 'side_chair');
    this.#offers.set(name, { tick, name: called });
    return el('div', { class: 'setup-field' }, el('label', { class: 'setup-tick' }, tick, el('span', { text: label })), el('span', { class: 'setup-line' }, called));
  }

  /** @param {string} knob @param {string} label */
  #opened(knob, label) {
    const tick = el('input', { type: 'checkbox' });
    tick.checked = knob === 'seat_height' || knob === 'seat_width' || knob === 'species';
    this.#open.set(knob, tick);
    return el('label', { class: 'setup-tick' }, tick, el('span', { text: label }));
  }

  /** @param {Plain} book */
  async file(book) {
    const file = structuredClone(this.#base);
    this.#form.put(file);
    file.brand ||= book.name;
    delete file.open;
    file.currency = book.currency;
    const stocked = book.timber.species.map((/** @type {Plain} */ row) => row.species);
    const ticked = [...this.#offers].filter(([, { tick }]) => tick.checked);
    file.offers = await Promise.all(ticked.map(([kind, { name }]) => this.#offered(kind, name.value.trim(), stocked)));
    return file;
  }

  /** @param {string} kind @param {string} name @param {string[]} stocked */
  async #offered(kind, name, stocked) {
    const family = kind || String(this.#own?.family);
    const answer = await bridge.ask('knobs', { family });
    const knobs = answer.ok ?? [];
    const first = Object.fromEntries(knobs.map((knob) => [knob.name, knob.default]));
    /** @type {Design} */
    const design = kind === '' ? { ...this.#own } : { family };
    const at = /** @type {Plain} */ ({ ...first, ...design });
    if (!stocked.includes(at.species)) design.species = at.species = stocked[0] ?? at.species;
    const open = knobs.flatMap((knob) => (this.#open.get(knob.name)?.checked ? openEntry(knob, at[knob.name], stocked) : []));
    return { name, knobs: design, ...(open.length > 0 && { open }) };
  }

  /** @param {Plain} book */
  async good(book) {
    const file = await this.file(book);
    const answer = await bridge.ask('publishShowroom', { showroom: file, shop: book });
    if (answer.ok) return file;
    const { where } = answer.error;
    const place = /^offers\[(\d+)\]/.exec(where)?.[1];
    const ticked = [...this.#offers.values()].filter(({ tick }) => tick.checked);
    const about = where.startsWith('offers') ? { label: told('setup_offers'), input: ticked[Number(place ?? 0)]?.name ?? [...this.#offers.values()][0]?.tick } : undefined;
    this.#form.refuse(answer.error, about);
    return undefined;
  }

  async see() {
    // The Showroom would show what was kept before.
    if ((await this.#kept()) && this.#stays) location.assign('showroom.html');
  }

  async save() {
    const file = await this.#kept();
    if (file) give('showroom.json', file);
  }

  async #kept() {
    const own = await book.use();
    this.#form.tell(told('setup_working'));
    const file = own && (await this.good(own));
    if (!file) return undefined;
    this.#stays = keep('showroom', JSON.stringify(file, null, 2));
    this.#form.tell(this.#stays ? told('setup_good') : told('setup_unkept'));
    return file;
  }
}

/** What is opened of a knob around its first value; nothing where there is nothing to choose. @param {Knob} knob @param {any} first @param {string[]} stocked */
function openEntry(knob, first, stocked) {
  const around = opened.find((row) => row.knob === knob.name)?.around ?? 0;
  if (typeof first === 'number') {
    const [from, to] = [Math.max(knob.min ?? first, first - around), Math.min(knob.max ?? first, first + around)];
    return from < to ? [{ knob: knob.name, from, to }] : [];
  }
  const names = (knob.choices ?? []).map(({ name }) => name);
  if (knob.name !== 'species') return names.length > 1 ? [{ knob: knob.name }] : [];
  const only = names.filter((name) => stocked.includes(name));
  return only.length > 1 ? [{ knob: 'species', only }] : [];
}

/** @param {string} head @param {string} note @param {Node[]} fields */
function group(head, note, fields) {
  return el('fieldset', {}, el('legend', { text: head }), el('p', { class: 'setup-help', text: note }), el('div', { class: 'setup-fields' }, ...fields));
}

/** @param {Form} form @param {[string, boolean, () => void][]} list */
function acts(form, list) {
  form.form.addEventListener('submit', (event) => event.preventDefault());
  // Enter in a field does what the strong button does.
  const buttons = list.map(([text, strong, onclick]) => el('button', { type: strong ? 'submit' : 'button', class: strong ? 'strong-button' : 'plain-button', text, onclick }));
  return el('div', {}, el('div', { class: 'setup-acts' }, ...buttons), form.said);
}

/** @param {string} name @param {Plain} file */
function give(name, file) {
  download({ name, type: 'application/json', bytes: `${JSON.stringify(file, null, 2)}\n` });
}

/** @param {string | null} text @param {'readShop' | 'readShowroom'} call */
async function own(text, call) {
  return text === null ? undefined : (await bridge.ask(call, text)).ok;
}

/** The design that the Workshop keeps. */
async function ownDesign() {
  const text = kept('design');
  return text === null ? undefined : (await bridge.ask('readDesign', text)).ok?.design;
}

const [demo, kinds, knobs, demoRoom] = await Promise.all([bridge.ask('demoShop', null), bridge.ask('families', null), bridge.ask('knobs', null), bridge.ask('readShowroom', null)]);
const [mine, myRoom, design] = await Promise.all([own(kept('shop'), 'readShop'), own(kept('showroom'), 'readShowroom'), ownDesign()]);
const invented = /** @type {Plain} */ (structuredClone(demo.ok));
// A rack, warnings and terms are somebody's own; the invented ones are not taken over.
invented.stock.rack = [];
delete invented.cautions;
delete invented.quote;
invented.pricing.tax.name = told('setup_tax');
const invitation = /** @type {Plain} */ (structuredClone(demoRoom.ok?.showroom));
Object.assign(invitation, { brand: '', line: '', contact: { mail: '' }, price: 'shown', price_note: told('setup_one_chair'), language: showroomTags.includes(document.documentElement.lang) ? document.documentElement.lang : speech.code });

const species = /** @type {Knob} */ ((knobs.ok ?? []).find(({ name }) => name === 'species'));
const book = new Book(/** @type {Plain} */ (/** @type {any} */ (mine)?.shop ?? invented), mine !== undefined, species);
const room = new Room(/** @type {Plain} */ (/** @type {any} */ (myRoom)?.showroom ?? invitation), kinds.ok ?? [], design);
byId('command').textContent = COMMAND;
room.begin(book.file());
document.documentElement.dataset.ready = '';
