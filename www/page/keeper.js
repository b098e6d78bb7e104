import { debounce } from './dom.js';
import { Emitter } from './emitter.js';
import { claimPlace, freePlaces } from './slots.js';
import { drop, keep, kept, remember, remembered, setAside } from './store.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Design } from './messages.d.ts' */

/** Long enough to write the address once for a drag, in milliseconds. */
const REST = 300;
/** How the file of a design begins, as the core writes it. */
const HEADER = 'design/1';
/** What the name of a design ends in that a link pushed aside. */
const EARLIER = '-before-link';
/** And the name of an address that is of an earlier design than what is kept. */
const BEHIND = '-behind';

/** @typedef {{ design: Design, name: string }} Named */

/**
 * Keeps the design in the address and in this browser, and reads it back from there.
 * @extends {Emitter<{ refused: null, corrupt: { why: string, key: string }, link: string }>}
 */
export class Keeper extends Emitter {
  #bridge;
  /** @type {Named | undefined} */
  #waiting;
  #soon = debounce(REST, () => this.#write());
  #refused = false;
  /** The name under which a single tab keeps its design, and that of this tab. */
  #base;
  /** @type {string} */
  #own;

  /** @param {Bridge} bridge @param {'design' | 'showroom-design'} own the name under which the own design is kept */
  constructor(bridge, own = 'design') {
    super();
    this.#bridge = bridge;
    this.#base = own;
    this.#own = own;
  }

  /**
   * Takes a place that no other open tab writes to. Before that nothing is read or written.
   * @returns {Promise<boolean>} whether another tab has the first one
   */
  async claim() {
    this.#own = await claimPlace(this.#base);
    return this.#own !== this.#base;
  }

  /** Takes back what tabs kept that are closed now, and differs from this tab's design. @returns {Promise<Named[]>} */
  async fromClosedTabs() {
    /** @type {Named[]} */
    const found = [];
    const own = kept(this.#own);
    for (const place of await freePlaces(this.#base, this.#own)) {
      if (place === this.#base) continue;
      const differs = kept(place) !== own;
      const named = await this.#read(place);
      if (named && differs) found.push(named);
    }
    return found;
  }

  /** Forgets what closed tabs kept, once it has another place. */
  async dropClosedTabs() {
    for (const place of await freePlaces(this.#base, this.#own)) if (place !== this.#base) drop(place);
  }

  /**
   * Keeps a design at once, so that nothing is lost with a tab that dies in this very moment; the core writes file and address a while
   * after the last of a run of changes. Until then the address must not be taken for a link that somebody sent, if this tab is
   * loaded anew.
   * @param {Named} named
   */
  keep(named) {
    const { name, design } = (this.#waiting = named);
    const isKept = keep(this.#own, JSON.stringify({ crestrail: HEADER, name, knobs: design }));
    if (isKept) remember(this.#own + BEHIND, location.hash.slice(1));
    this.#soon();
  }

  /**
   * What the address holds; undefined where there is nothing in it, it is refused, or what is kept is later.
   * @returns {Promise<Design | undefined>}
   */
  async fromLink() {
    const fragment = location.hash.slice(1);
    if (fragment === '' || this.#isBehind(fragment)) return undefined;
    const answer = await this.#bridge.ask('readLink', fragment);
    if (answer.error) this.emit('link', answer.error.why);
    return answer.ok?.design;
  }

  /** What this browser holds; a further tab begins with what the first one has. @returns {Promise<Named | undefined>} */
  async fromStore() {
    return (await this.#read(this.#own)) ?? (this.#own === this.#base ? undefined : this.#read(this.#base));
  }

  /** What it held before a link was opened. @returns {Promise<Named | undefined>} */
  fromBeforeLink() {
    return this.#read(this.#own + EARLIER);
  }

  /** Keeps the own design apart while a link's takes its place. @returns {boolean} whether there was one */
  putOwnAside() {
    const own = kept(this.#own);
    return own !== null && keep(this.#own + EARLIER, own);
  }

  /** The whole address of a design. @param {Design} design */
  async address(design) {
    const answer = await this.#bridge.ask('writeLink', design);
    if (answer.error) return location.href;
    return `${location.href.split('#')[0]}#${answer.ok}`;
  }

  /** @param {string} name @returns {Promise<Named | undefined>} */
  async #read(name) {
    const text = kept(name);
    if (text === null) return undefined;
    const answer = await this.#bridge.ask('readDesign', text);
    if (answer.ok) return { design: answer.ok.design, name: answer.ok.name ?? '' };
    if (answer.error.where !== 'worker') this.emit('corrupt', { why: answer.error.why, key: setAside(name) });
    return undefined;
  }

  async #write() {
    const named = this.#waiting;
    if (!named) return;
    const [address, text] = await Promise.all([this.address(named.design), this.#bridge.ask('writeDesign', named)]);
    // A later change has its own turn; an older address must not follow it.
    if (this.#waiting !== named) return;
    this.#waiting = undefined;
    history.replaceState(history.state, '', address);
    remember(this.#own + BEHIND, null);
    if (text.ok === undefined || keep(this.#own, text.ok) || this.#refused) return;
    this.#refused = true;
    this.emit('refused', null);
  }

  /** @param {string} fragment */
  #isBehind(fragment) {
    const behind = remembered(this.#own + BEHIND) === fragment;
    if (behind) remember(this.#own + BEHIND, null);
    return behind;
  }
}
