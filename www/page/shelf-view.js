import { download } from './design-file.js';
import { el, setText } from './dom.js';
import { Emitter } from './emitter.js';
import { money } from './format.js';
import { tidyName } from './head.js';
import { madeDialog } from './made-dialog.js';
import { added, joined, MOST_KEPT, read, renamed, without, written } from './shelf.js';
import { drawn, frame, putSmall, SMALL_VIEW } from './thumbnail.js';
import { say, speech } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Design } from './messages.d.ts' */
/** @import { Kept } from './shelf.js' */
/** @import { ShelfStore } from './shelf-store.js' */
/** @import { Session } from './session.js' */

/** @typedef {{ name: string, design: Design }} Named */

/** So many can be compared. */
const MOST_COMPARED = 4;
/** What stands for the chair shown among those that are compared. */
const PRESENT = '';
/** Far above any shelf, in bytes. */
const MOST_BYTES = 3_000_000;

/**
 * The shelf: a card for each design, with its picture and its price of today.
 * @extends {Emitter<{ open: Named, compare: Named[] }>}
 */
export class ShelfView extends Emitter {
  #bridge;
  #session;
  #store;
  #cards = el('ul', { class: 'shelf-cards' });
  #none = el('p', { class: 'list-note', text: say('shelf_none') });
  #state = el('p', { class: 'shelf-state', role: 'status' });
  #words = el('span', {});
  #back = el('button', { type: 'button', class: 'text-button', text: say('shelf_bring_back'), hidden: true });
  #compare = el('button', { type: 'button', class: 'plain-button', onclick: () => this.#compareChosen() });
  #present = el('input', { type: 'checkbox', onchange: () => this.#choose(PRESENT, this.#present.checked) });
  #file = el('input', { type: 'file', accept: '.json,application/json', hidden: true, tabindex: '-1' });
  #dialog;
  /** Those that are to be compared, the first chosen first. @type {Set<string>} */
  #chosen = new Set();
  /** What the core told of each design: it is asked once while the dialog is open. @type {Map<string, { svg: string, price: string }>} */
  #told = new Map();
  /** Counts the runs of drawing, so that only the last goes on. */
  #run = 0;

  /** @param {Bridge} bridge @param {Session} session @param {ShelfStore} store */
  constructor(bridge, session, store) {
    super();
    this.#bridge = bridge;
    this.#session = session;
    this.#store = store;
    this.#state.append(this.#words, this.#back);
    const act = (/** @type {'shelf_keep' | 'shelf_save' | 'shelf_bring'} */ word, /** @type {() => void} */ does, kind = 'plain') =>
      el('button', { type: 'button', class: `${kind}-button`, text: say(word), onclick: does });
    this.#dialog = madeDialog(
      'shelf',
      say('shelf'),
      el('div', { class: 'shelf-acts' }, act('shelf_keep', () => this.keepPresent(), 'strong'), this.#compare, el('label', { class: 'check' }, this.#present, el('span', { text: say('shelf_with_present') }))),
      this.#state,
      this.#none,
      this.#cards,
      el('div', { class: 'shelf-acts shelf-files' }, act('shelf_save', () => this.#save()), act('shelf_bring', () => this.#file.click()), this.#file),
    );
    this.#file.addEventListener('change', () => this.#chosenFile());
    store.on('changed', () => this.#dialog.open && this.#list());
    this.#dialog.addEventListener('close', () => (this.#run += 1));
  }

  open() {
    this.#told.clear();
    this.#chosen.clear();
    this.#present.checked = false;
    this.#tell('');
    if (!this.#dialog.open) this.#dialog.showModal();
    this.#list();
  }

  /** Puts the chair that is shown on the shelf. */
  keepPresent() {
    const { built: design } = this.#session;
    const name = this.#session.name || this.#kindOf(design);
    const date = new Date().toISOString();
    if (this.#change((shelf) => added(shelf, { name, date, design }))) this.#tell(say('shelf_kept', { name: called(name) }));
  }

  /** What its kind of chair is called: better than no name, since several stand beside each other. @param {Design} design */
  #kindOf({ family }) {
    const label = this.#session.knobs.get('family')?.choices?.find(({ name }) => name === family)?.label;
    return tidyName(label ?? '');
  }

  /** Adds a shelf's file. @param {string} text @returns {Promise<string>} what came of it, in words */
  async bring(text) {
    /** @type {Kept[]} */
    let others;
    try {
      others = read(text);
    } catch {
      return say('shelf_unread');
    }
    /** @type {Kept[]} */
    const good = [];
    for (const kept of others.slice(0, MOST_KEPT)) {
      const answer = await this.#bridge.ask('readDesign', JSON.stringify({ crestrail: 'design/1', name: tidyName(kept.name), knobs: kept.design }));
      if (answer.ok) good.push({ ...kept, name: tidyName(answer.ok.name ?? ''), design: answer.ok.design });
    }
    let count = 0;
    const isDone = this.#change((shelf) => {
      const made = joined(shelf, good);
      count = made.count;
      return made.shelf;
    });
    if (!isDone) return this.#words.textContent ?? '';
    const left = others.length - good.length;
    const words = [say('shelf_brought', { count }), left > 0 ? say('shelf_left', { count: left }) : ''].join(' ').trim();
    this.#tell(words);
    return words;
  }

  /**
   * @param {(shelf: Kept[]) => Kept[]} change
   * @param {boolean} [anew] whether the cards are made anew; a press on one that is being made anew would be lost
   * @returns {boolean} whether it was done; if not, it is said why
   */
  #change(change, anew = true) {
    const came = this.#store.change(change);
    const isDone = came === 'kept' || came === 'loose';
    if (!isDone) this.#tell(say(came === 'many' ? 'shelf_many' : 'shelf_full', { most: MOST_KEPT }));
    if (anew) this.#list();
    return isDone;
  }

  /** @param {string} words @param {() => void} [back] a way back */
  #tell(words, back) {
    setText(this.#words, [words, this.#store.isLoose ? say('shelf_loose') : ''].filter(Boolean).join(' '));
    this.#back.hidden = !back;
    this.#back.onclick = back ?? null;
  }

  #list() {
    // What is not shown cannot be measured.
    if (!this.#dialog.open) return;
    const shelf = this.#store.all();
    for (const id of this.#chosen) if (id !== PRESENT && !shelf.some((kept) => kept.id === id)) this.#chosen.delete(id);
    this.#none.hidden = shelf.length > 0;
    const had = this.#dialog.contains(document.activeElement) ? document.activeElement?.getAttribute('data-act') : undefined;
    this.#cards.replaceChildren(...shelf.map((kept) => this.#card(kept)));
    if (had) /** @type {HTMLElement | null} */ (this.#cards.querySelector(`[data-act="${had}"]`))?.focus();
    this.#tellChosen();
    this.#draw(shelf);
  }

  /** @param {Kept} kept */
  #card(kept) {
    const { id, name, date } = kept;
    // By the name that it has then.
    const now = () => this.#store.all().find((one) => one.id === id) ?? kept;
    const title = el('input', { class: 'shelf-name', type: 'text', dir: 'auto', maxlength: '60', autocomplete: 'off', spellcheck: 'false', placeholder: say('design_unnamed'), 'aria-label': say('design_name'), 'data-act': `name-${id}` });
    title.value = name;
    title.addEventListener('change', () => {
      title.value = tidyName(title.value);
      this.#change((shelf) => renamed(shelf, id, title.value), false);
    });
    title.addEventListener('keydown', ({ key }) => key === 'Enter' && title.blur());
    const chosen = el('input', { type: 'checkbox', 'data-act': `choose-${id}` });
    chosen.checked = this.#chosen.has(id);
    chosen.addEventListener('change', () => this.#choose(id, chosen.checked));
    const act = (/** @type {'shelf_open' | 'shelf_double' | 'shelf_delete'} */ word, /** @type {() => void} */ does) =>
      el('button', { type: 'button', class: 'text-button', text: say(word), 'aria-label': say(`${word}_name`, { name: called(name) }), 'data-act': `${word}-${id}`, onclick: does });
    return el(
      'li',
      { class: 'shelf-card', 'data-id': id },
      el('button', { type: 'button', class: 'shelf-picture', 'aria-label': say('shelf_open_name', { name: called(name) }), tabindex: '-1', onclick: () => this.#open(now()) }),
      title,
      el('p', { class: 'shelf-line' }, el('time', { datetime: date, text: dated(date) }), el('span', { class: 'shelf-price' })),
      el('p', { class: 'shelf-line' }, act('shelf_open', () => this.#open(now())), act('shelf_double', () => this.#double(now())), act('shelf_delete', () => this.#delete(now()))),
      el('label', { class: 'check' }, chosen, el('span', { text: say('shelf_choose') })),
    );
  }

  /** @param {Kept} kept */
  #open({ name, design }) {
    this.#dialog.close();
    this.emit('open', { name, design });
  }

  /** @param {Kept} kept */
  #double({ id, name, design }) {
    const date = new Date().toISOString();
    const copy = { name: tidyName(say('shelf_copy', { name: called(name) })), date, design };
    if (this.#change((shelf) => added(shelf, copy, shelf.findIndex((kept) => kept.id === id) + 1))) this.#tell(say('shelf_kept', { name: copy.name }));
  }

  /** @param {Kept} kept */
  #delete({ id, ...kept }) {
    const at = this.#store.all().findIndex((other) => other.id === id);
    if (!this.#change((shelf) => without(shelf, id))) return;
    const back = () => this.#change((shelf) => added(shelf, kept, at)) && this.#tell(say('shelf_back', { name: called(kept.name) }));
    this.#tell(say('shelf_deleted', { name: called(kept.name) }), back);
    this.#back.focus();
  }

  // ---- What is compared ----

  /** @param {string} id @param {boolean} chosen */
  #choose(id, chosen) {
    if (chosen) this.#chosen.add(id);
    else this.#chosen.delete(id);
    this.#tellChosen();
  }

  #tellChosen() {
    const count = this.#chosen.size;
    setText(this.#compare, say('shelf_compare', { count }));
    const fits = count >= 2 && count <= MOST_COMPARED;
    this.#compare.setAttribute('aria-disabled', String(!fits));
    this.#compare.title = fits ? '' : say('shelf_compare_how');
  }

  #compareChosen() {
    const shelf = this.#store.all();
    if (this.#chosen.size < 2 || this.#chosen.size > MOST_COMPARED) return this.#tell(say('shelf_compare_how'));
    const { built, name } = this.#session;
    const named = [...this.#chosen].map((id) => (id === PRESENT ? { name: name || say('compare_present'), design: built } : shelf.find((kept) => kept.id === id)));
    this.#dialog.close();
    this.emit('compare', named.flatMap((one) => (one ? [{ name: called(one.name), design: one.design }] : [])));
  }

  // ---- Files ----

  #save() {
    const file = 'chairs.shelf.json';
    download({ name: file, type: 'application/json', bytes: written(this.#store.all()) });
    this.#tell(say('save_done', { file }));
  }

  async #chosenFile() {
    const file = this.#file.files?.[0];
    this.#file.value = '';
    if (!file) return;
    if (file.size > MOST_BYTES) return this.#tell(say('open_too_big', { size: (file.size / 1e6).toFixed(1) }));
    this.#tell(await this.bring(await file.text()));
  }

  // ---- Pictures ----

  /** Has the core draw one after the other; each shows as soon as it is made. @param {Kept[]} shelf */
  async #draw(shelf) {
    const run = ++this.#run;
    for (const { id, design } of shelf) {
      const key = JSON.stringify(design);
      const told = this.#told.get(key) ?? (await this.#ask(design));
      if (run !== this.#run) return;
      this.#told.set(key, told);
      const card = this.#cards.querySelector(`[data-id="${id}"]`);
      const [box, price] = [card?.querySelector('.shelf-picture'), card?.querySelector('.shelf-price')];
      if (!(box instanceof HTMLElement) || !price) continue;
      setText(price, told.price);
      if (!told.svg) continue;
      const drawing = putSmall(box, told.svg);
      frame([drawing], drawn(drawing));
    }
  }

  /** @param {Design} design */
  async #ask(design) {
    const { shop, view } = this.#session;
    const answer = await this.#bridge.ask('step', { design, shop, view: { ...SMALL_VIEW, scheme: view.scheme }, want: ['report', 'picture'] });
    if (answer.error) return { svg: '', price: say('shelf_broken') };
    const { report, picture = '' } = answer.ok;
    return { svg: picture, price: report?.bill ? money(report.bill.total_minor, report.bill) : say('no_price') };
  }
}

/** @param {string} name */
function called(name) {
  return name || say('design_unnamed');
}

/** @param {string} date */
function dated(date) {
  return new Intl.DateTimeFormat(speech.language, { dateStyle: 'medium' }).format(new Date(date));
}
