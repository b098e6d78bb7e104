import { Bridge } from './bridge.js';
import { debounce } from './dom.js';
import { today } from './format.js';
import { lengthUnit } from './length-unit.js';
import { handOver, savePdf } from './pdf-file.js';
import { say } from './words.js';

/** @import { Session } from './session.js' */
/** @import { SheetList } from './sheet-list.js' */
/** @import { BookWish, SheetFonts, SheetWish } from './messages.d.ts' */

/** How long the knobs rest before sheets are drawn, in milliseconds. */
const REST = 150;
/** No font is needed for a drawing that names its typeface. */
const NONE = { regular: new Uint8Array(), medium: new Uint8Array() };

/** Fills the list of sheets when the knobs have come to rest, and saves what is asked of it. */
export class SheetWork {
  #bridge;
  #session;
  #list;
  /** @type {Bridge | undefined} where a book is being made */
  #aside;

  /** @param {Bridge} bridge @param {Session} session @param {SheetList} list */
  constructor(bridge, session, list) {
    this.#bridge = bridge;
    this.#session = session;
    this.#list = list;
    list.on('wanted', debounce(REST, () => this.#show()));
    list.on('save', (wish) => this.#save(wish));
    list.on('bind', (wish) => this.#bind(wish));
    list.on('stop', () => {
      this.#end();
      list.tell(say('stopped'));
    });
  }

  /** An answer about an earlier chair is let go. */
  async #show() {
    const { built: design, shop } = this.#session;
    const isShown = this.#session.watch();
    const answer = await this.#bridge.ask('sheets', { design, shop, unit: lengthUnit.value });
    if (!isShown()) return;
    if (answer.error) return this.#list.tell(say('file_failed', { why: answer.error.why }));
    this.#list.tell('');
    this.#list.list(answer.ok);
  }

  /** @param {SheetWish} wish */
  async #save(wish) {
    const make = (/** @type {SheetFonts} */ fonts) => this.#bridge.ask('sheet', { wish: { ...wish, ...this.#now }, fonts });
    this.#list.tell(say('sheet_making'), true);
    if (wish.format === 'pdf') await savePdf(this.#tell, make);
    else handOver(this.#tell, await make(NONE));
  }

  /** Says on the way which chapter is being made. It has a worker of its own, so that it can be stopped. @param {BookWish} wish */
  async #bind(wish) {
    const aside = (this.#aside = new Bridge());
    const isWanted = () => aside === this.#aside;
    this.#list.tell(say('sheet_making'), true);
    const tell = (/** @type {string} */ words) => isWanted() && this.#list.tell(words);
    await savePdf(tell, (fonts) => aside.ask('benchBook', { wish: { ...wish, ...this.#now }, fonts }, (progress) => isWanted() && this.#list.progress(progress)));
    if (isWanted()) this.#end();
  }

  #end() {
    this.#aside?.end();
    this.#aside = undefined;
  }

  /** @param {string} words */
  #tell = (words) => this.#list.tell(words);

  /** The chair that is shown, and the day. */
  get #now() {
    const { built: design, name, shop } = this.#session;
    return { design, name, date: today(), shop };
  }
}
