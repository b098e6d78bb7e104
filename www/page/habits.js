import { download } from './design-file.js';
import { Keys } from './keys.js';
import { kept } from './store.js';
import { say } from './words.js';
import { UndoWork } from './undo-work.js';

/** @import { Design, Knob, View } from './messages.d.ts' */
/** @import { Key } from './keys.js' */
/** @import { Notices } from './notices.js' */
/** @import { Session } from './session.js' */
/** @import { Around, SurpriseView } from './surprise-view.js' */

/**
 * @typedef {object} Page what the habits need of a page
 * @property {Session} session
 * @property {Notices} notices
 * @property {(state: { design: Design, name: string }) => unknown} show shows a whole design
 * @property {() => Around} around what a chair is drawn from
 * @property {(design: Design, view: View) => Promise<string | undefined>} picture the core's drawing of a design; undefined where it cannot be made
 * @property {() => Promise<string>} address a link to the chair that is shown
 */

/** Working habits that Workshop and Showroom share: undo, a chair from a number, sharing, keys. What is seldom used is loaded when it is. */
export class Habits {
  #page;
  #keys;
  undo;
  /** @type {SurpriseView | undefined} */
  #surprise;

  /** @param {Page} page @param {string} key under which this tab remembers its steps @param {Key[]} [keys] that this page has besides */
  constructor(page, key, keys = []) {
    this.#page = page;
    this.undo = new UndoWork(page.session, key);
    this.undo.on('show', (state) => page.show(state));
    this.#keys = new Keys([
      { key: 'z', command: true, shift: false, word: 'key_undo', act: () => this.undo.undo() },
      { key: 'z', command: true, shift: true, word: 'key_redo', act: () => this.undo.redo() },
      { key: 'y', command: true, shift: false, word: 'key_redo', act: () => this.undo.redo() },
      ...keys,
      { key: 'r', word: 'key_surprise', act: () => this.surprise() },
      { key: '1', word: 'key_front', act: () => press('[data-look="front"]') },
      { key: '2', word: 'key_side', act: () => press('[data-look="side"]') },
      { key: '3', word: 'key_corner', act: () => press('[data-look="corner"]') },
      { key: 'a', word: 'key_apart', act: () => press('[data-look="apart"]') },
    ]);
  }

  /** All keys of the page. */
  keys() {
    this.load(() => this.#keys.show());
  }

  /** Draws a chair from a number. */
  surprise() {
    this.load(async () => (await this.#surpriseView()).open());
  }

  /** Hands the link to the device, where it shares things; that is asked with `canShare`. */
  async share() {
    const { session, address } = this.#page;
    const title = session.name || say('design_unnamed');
    try {
      await navigator.share({ title, url: await address() });
    } catch (why) {
      // Whoever closes the list of apps has not met a fault.
      if (!(why instanceof DOMException && why.name === 'AbortError')) this.#page.notices.tell('link', say('share_failed'), { stays: true });
    }
  }

  /** Draws what a knob moves on the chair that is shown. @param {{ knob: Knob, box: HTMLElement }} wanted */
  help({ knob, box }) {
    this.load(async () => {
      const { drawHelp } = await import('./help-drawing.js');
      await drawHelp(box, knob, this.#page.session.built, this.#page.picture);
    });
  }

  /** Does what needs a part of the page that may have to be loaded. @param {() => Promise<unknown>} act */
  async load(act) {
    try {
      await act();
    } catch (why) {
      console.info(why);
      this.#page.notices.tell('part', say('part_failed'), { stays: true });
    }
  }

  /** Tells that something kept could not be read, and offers it as a file. @param {string} notice @param {string} words @param {string} key */
  tellCorrupt(notice, words, key) {
    const act = () => download({ name: `${key.replace(/[^\w-]+/g, '-')}.txt`, type: 'text/plain;charset=utf-8', bytes: kept(key) ?? '' });
    this.#page.notices.tell(notice, words, { stays: true, action: { words: say('aside_save'), act } });
  }

  async #surpriseView() {
    if (this.#surprise) return this.#surprise;
    const { SurpriseView } = await import('./surprise-view.js');
    const { around, show, session, notices } = this.#page;
    const view = (this.#surprise ??= new SurpriseView(around));
    view.on('drawn', async ({ design, number }) => {
      await show({ design, name: session.name });
      notices.tell('surprise', say('surprise_done', { number }), { stays: true, action: { words: say('surprise_again'), act: () => view.again() } });
    });
    return view;
  }
}

/** Whether this device shares links. */
export const canShare = typeof navigator.share === 'function';

/** Does what a button of the page does. @param {string} selector */
function press(selector) {
  /** @type {HTMLElement | null} */ (document.querySelector(selector))?.click();
}
