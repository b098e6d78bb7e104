import { Habits } from './habits.js';
import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Head } from './head.js' */
/** @import { Key } from './keys.js' */
/** @import { Keeper } from './keeper.js' */
/** @import { KindTables } from './kind-tables.js' */
/** @import { Compare } from './compare.js' */
/** @import { Page } from './habits.js' */
/** @import { Design } from './messages.d.ts' */
/** @import { Session } from './session.js' */
/** @import { ShelfStore } from './shelf-store.js' */
/** @import { ShelfView } from './shelf-view.js' */

/** The habits of the Workshop: those of every page, and its shelf, on which designs are compared. */
export class BenchHabits extends Habits {
  #page;
  #bridge;
  #tables;
  /** @type {ShelfStore | undefined} */
  #store;
  /** @type {ShelfView | undefined} */
  #shelf;
  /** @type {Compare | undefined} */
  #compare;

  /** @param {Omit<Page, 'around'> & { save: () => void }} page @param {Bridge} bridge @param {KindTables} tables */
  constructor(page, bridge, tables) {
    /** @type {Key[]} */
    const keys = [
      { key: 's', command: true, always: true, word: 'key_save', act: () => page.save() },
      { key: 'l', word: 'key_shelf', act: () => this.shelf() },
      { key: 'k', word: 'key_keep', act: () => this.keepPresent() },
    ];
    super({ ...page, around: () => drawnFrom(page.session) }, 'history', keys);
    this.#page = page;
    this.#bridge = bridge;
    this.#tables = tables;
  }

  /** Does what is chosen from the menu. @param {Head} head */
  hear(head) {
    head.on('share', () => this.share());
    head.on('keep', () => this.keepPresent());
    head.on('shelf', () => this.shelf());
    head.on('surprise', () => this.surprise());
    head.on('keys', () => this.keys());
  }

  shelf() {
    this.load(async () => (await this.#view()).open());
  }

  /** Puts the chair that is shown on the shelf. */
  keepPresent() {
    this.load(async () => {
      const view = await this.#view();
      view.open();
      view.keepPresent();
    });
  }

  /** @param {string} text a file that was opened @returns {Promise<string | undefined>} what came of it, if it is a shelf */
  async bring(text) {
    return /"crestrail"\s*:\s*"shelf\//.test(text) ? (await this.#view()).bring(text) : undefined;
  }

  /** Puts on the shelf what tabs had that are closed now. @param {Keeper} keeper */
  async takeIn(keeper) {
    const left = await keeper.fromClosedTabs();
    if (left.length > 0) {
      const [store, { added }] = await Promise.all([this.#stored(), import('./shelf.js')]);
      const date = new Date().toISOString();
      const came = store.change((shelf) => left.reduce((made, named) => added(made, { ...named, date }), shelf));
      // Where the shelf has no room they stay where they are.
      if (came !== 'kept') return;
      this.#page.notices.tell('tabs', say('tab_left', { count: left.length }), { stays: true, action: { words: say('shelf_see'), act: () => this.shelf() } });
    }
    await keeper.dropClosedTabs();
  }

  async #stored() {
    const { ShelfStore } = await import('./shelf-store.js');
    if (this.#store) return this.#store;
    this.#store = new ShelfStore();
    this.#store.on('corrupt', ({ key }) => this.tellCorrupt('shelf', say('shelf_corrupt', { key }), key));
    return this.#store;
  }

  async #view() {
    if (this.#shelf) return this.#shelf;
    const [store, { ShelfView }] = await Promise.all([this.#stored(), import('./shelf-view.js')]);
    if (this.#shelf) return this.#shelf;
    const view = (this.#shelf = new ShelfView(this.#bridge, this.#page.session, store));
    view.on('open', (state) => this.#page.show(state));
    view.on('compare', (designs) => this.load(async () => (await this.#comparing()).open(designs)));
    return view;
  }

  async #comparing() {
    const { Compare } = await import('./compare.js');
    return (this.#compare ??= new Compare(this.#bridge, this.#tables, this.#page.session));
  }
}

/** What a chair is drawn from: the first sizes of the present kind, for whoever sits here now. @param {Session} session */
function drawnFrom({ design, knobs, shop, view }) {
  const rows = [...knobs.values()];
  const given = rows.filter(({ group }) => group === 'use').map(({ name }) => [name, design[name]]);
  const begins = { ...Object.fromEntries(rows.map((knob) => [knob.name, knob.default])), ...Object.fromEntries(given) };
  /** @param {Bridge} aside @param {Design} tried */
  const fails = async (aside, tried) => {
    const answer = await aside.ask('step', { design: tried, view, want: ['report'], shop });
    return answer.error ? answer.error.why : (answer.ok.report?.findings.find(({ verdict }) => verdict === 'fails')?.plain ?? '');
  };
  return { begins, knobs: rows, fails };
}
