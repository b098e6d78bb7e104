import { beside } from './beside.js';
import { debounce } from './dom.js';
import { today } from './format.js';
import { lengthUnit } from './length-unit.js';
import { handOver, savePdf } from './pdf-file.js';
import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Run } from './job.js' */
/** @import { Session } from './session.js' */
/** @import { SheetList } from './sheet-list.js' */
/** @import { BookWish, SheetFonts, SheetWish } from './messages.d.ts' */
/** @import { Printed } from './pdf-file.js' */

/** How long the knobs rest before sheets are drawn, in milliseconds. */
const REST = 150;
/** No font is needed for a drawing that names its typeface. */
const NONE = { regular: new Uint8Array(), medium: new Uint8Array() };

/** Fills the list of sheets when the knobs have come to rest, and saves what is asked of it. */
export class SheetWork {
  #bridge;
  #session;
  #list;
  /** Why there is no list of the sheets; empty where there is one. */
  #failed = '';

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
    const answer = await this.#bridge.ask('sheets', { design, shop, unit: lengthUnit.value });
    if (!isShown()) return;
    const failed = answer.error ? say('file_failed', { why: answer.error.why }) : '';
    // What a job told stays: only what this told goes.
    if (failed !== this.#failed) this.#list.tell((this.#failed = failed));
    if (answer.ok) this.#list.list(answer.ok);
  }

  /** @param {SheetWish} wish */
  #save(wish) {
    const made = { ...wish, ...this.#now };
    return this.#run(wish.format, ({ signal }, fonts) => beside(signal, (bridge) => bridge.ask('sheet', { wish: made, fonts })));
  }

  /** Says on the way which chapter is being made. @param {BookWish} wish */
  #bind(wish) {
    const made = { ...wish, ...this.#now };
    return this.#run('pdf', ({ signal, report }, fonts) => beside(signal, (bridge) => bridge.ask('benchBook', { wish: made, fonts }, report)));
  }

  /** @param {SheetWish['format']} format @param {(run: Run, fonts: SheetFonts) => Promise<Printed | undefined>} make */
  async #run(format, make) {
    /** What came of it is told when the job has ended: then the buttons work again. */
    let came = '';
    const tell = (/** @type {string} */ words) => (came = words);
    const ended = await this.#list.job.run(say('sheet_making'), async (run) => {
      if (format === 'pdf') await savePdf(tell, (fonts) => make(run, fonts));
      else {
        const made = await make(run, NONE);
        if (made) handOver(tell, made);
      }
      return true;
    });
    if (ended) this.#list.tell(came);
  }

  /** The chair that is shown, and the day. */
  get #now() {
    const { built: design, name, shop } = this.#session;
    return { design, name, date: today(), shop };
  }
}
