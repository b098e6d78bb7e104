import { beside } from './beside.js';
import { download } from './design-file.js';
import { debounce } from './dom.js';
import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Exports } from './exports.js' */
/** @import { Session } from './session.js' */
/** @import { Solids } from './solids.js' */
/** @import { SolidsWish } from './messages.d.ts' */

/** How long the knobs rest before the parts are listed, in milliseconds. */
const REST = 150;

/** Lists the parts to choose from when the knobs have come to rest, and saves files of solids. */
export class SolidsWork {
  #bridge;
  #session;
  #solids;
  #exporting;

  /** @param {Bridge} bridge @param {Session} session @param {Solids} solids @param {Exports} exporting */
  constructor(bridge, session, solids, exporting) {
    this.#bridge = bridge;
    this.#session = session;
    this.#solids = solids;
    this.#exporting = exporting;
    solids.on('wanted', debounce(REST, () => this.#show()));
    solids.on('save', (wish) => this.#save(wish));
  }

  /** An answer about an earlier chair is let go. */
  async #show() {
    const { built: design, shop } = this.#session;
    const isShown = this.#session.watch();
    const answer = await this.#bridge.ask('shapes', { design, shop });
    if (!isShown()) return;
    if (answer.error) return this.#exporting.update(say('file_failed', { why: answer.error.why }));
    this.#solids.list(answer.ok);
  }

  /** @param {SolidsWish} wish */
  async #save(wish) {
    // To the second, as ISO 8601.
    const stamp = new Date().toISOString().slice(0, 19);
    const { built: design, name, shop } = this.#session;
    const request = { ...wish, stamp, design, name, shop };
    const words = say('file_making', { name: say(`solids_${wish.format}`) });
    const answer = await this.#exporting.job.run(words, ({ signal }) => beside(signal, (bridge) => bridge.ask('exchange', request)));
    if (!answer) return;
    if (answer.error) return this.#exporting.update(say('file_failed', { why: answer.error.why }));
    download(answer.ok);
    this.#exporting.update(say('file_made', { name: answer.ok.name }));
  }
}
