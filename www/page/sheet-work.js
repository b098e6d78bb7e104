import { download } from './design-file.js';
import { debounce } from './dom.js';
import { today } from './format.js';
import { sheetFonts } from './sheet-fonts.js';
import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Session } from './session.js' */
/** @import { SheetList } from './sheet-list.js' */
/** @import { Answer, BookWish, MadeFile, SheetFonts, SheetWish } from './messages.d.ts' */

/** How long the knobs rest before sheets are drawn, in milliseconds. */
const REST = 150;
/** No font is needed for a drawing that names its typeface. */
const NONE = { regular: new Uint8Array(), medium: new Uint8Array() };

/** Fills the list of sheets when the knobs have come to rest, and saves what is asked of it. */
export class SheetWork {
  #bridge;
  #session;
  #list;

  /** @param {Bridge} bridge @param {Session} session @param {SheetList} list */
  constructor(bridge, session, list) {
    this.#bridge = bridge;
    this.#session = session;
    this.#list = list;
    list.on('wanted', debounce(REST, () => this.#show()));
    list.on('save', (wish) => this.#save(wish));
    list.on('bind', (wish) => this.#bind(wish));
  }

  /** An answer about an earlier chair is let go. */
  async #show() {
    const { built: design, shop } = this.#session;
    const isShown = this.#session.watch();
    const answer = await this.#bridge.ask('sheets', { design, shop, unit: this.#list.unit });
    if (!isShown()) return;
    if (answer.error) return this.#list.tell(say('file_failed', { why: answer.error.why }));
    this.#list.tell('');
    this.#list.list(answer.ok);
  }

  /** @param {SheetWish} wish */
  async #save(wish) {
    this.#list.tell(say('sheet_making'), true);
    const fonts = wish.format === 'pdf' ? await this.#fonts() : NONE;
    if (!fonts) return;
    this.#handOver(await this.#bridge.ask('sheet', { wish: { ...wish, ...this.#now }, fonts }));
  }

  /** Says on the way which chapter is being made. @param {BookWish} wish */
  async #bind(wish) {
    this.#list.tell(say('sheet_making'), true);
    const fonts = await this.#fonts();
    if (!fonts) return;
    this.#handOver(await this.#bridge.ask('benchBook', { wish: { ...wish, ...this.#now }, fonts }, (progress) => this.#list.progress(progress)));
  }

  /** The chair that is shown, and the day. */
  get #now() {
    const { built: design, name, shop } = this.#session;
    return { design, name, date: today(), shop };
  }

  /** Says which characters of the name the file's typeface does not have. @param {Answer<MadeFile & { missing: string }>} answer */
  #handOver(answer) {
    if (answer.error) return this.#list.tell(say('file_failed', { why: answer.error.why }));
    download(answer.ok);
    const { name, missing } = answer.ok;
    this.#list.tell(say(missing ? 'sheet_made_without' : 'sheet_made', { name, missing: [...missing].join(' ') }));
  }

  /** @returns {Promise<SheetFonts | undefined>} */
  async #fonts() {
    try {
      return await sheetFonts();
    } catch (why) {
      this.#list.tell(say('sheet_no_font', { why: String(why) }));
      return undefined;
    }
  }
}
