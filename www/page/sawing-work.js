import { Bridge } from './bridge.js';
import { download } from './design-file.js';
import { say } from './words.js';

/** @import { PlanFile } from './messages.d.ts' */
/** @import { Sawing } from './sawing.js' */
/** @import { Session } from './session.js' */

/**
 * Works out the sawing plan in a worker of its own: quickly, then well, then the sets. Whatever comes about a chair that is
 * no longer shown is let go, and so is what has been stopped.
 */
export class SawingWork {
  #session;
  #sawing;
  /** @type {Bridge | undefined} */
  #aside;

  /** @param {Session} session @param {Sawing} sawing */
  constructor(session, sawing) {
    this.#session = session;
    this.#sawing = sawing;
    sawing.on('wanted', ({ chairs }) => this.#show(chairs));
    sawing.on('stop', () => this.stop());
    sawing.on('file', ({ kind, chairs }) => this.#file(kind, chairs));
  }

  stop() {
    this.#aside?.end();
    this.#aside = undefined;
  }

  /** @param {number} chairs */
  async #show(chairs) {
    this.stop();
    const aside = new Bridge();
    this.#aside = aside;
    const isShown = this.#session.watch();
    const isWanted = () => isShown() && aside === this.#aside;
    for (const effort of /** @type {const} */ (['quick', 'good'])) {
      const answer = await aside.ask('plan', { ...this.#request(chairs), effort }, (progress) => isWanted() && this.#sawing.progress(progress));
      if (!isWanted()) return;
      if (answer.error) return this.#end(() => this.#sawing.fail(answer.error.why));
      this.#sawing.update(answer.ok, effort === 'good');
    }
    const { built: design, shop } = this.#session;
    const sets = await aside.ask('sets', { design, shop }, (progress) => isWanted() && this.#sawing.progress(progress));
    if (!isWanted()) return;
    this.#end(() => (sets.error ? this.#sawing.fail(sets.error.why) : this.#sawing.showSets(sets.ok)));
  }

  /** @param {() => void} tell */
  #end(tell) {
    this.stop();
    tell();
  }

  /** @param {number} chairs */
  #request(chairs) {
    const { built: design, shop, view } = this.#session;
    return { design, chairs, shop, view: { scheme: view.scheme } };
  }

  /** @param {PlanFile} kind @param {number} chairs */
  async #file(kind, chairs) {
    const aside = new Bridge();
    const answer = await aside.ask('planFile', { ...this.#request(chairs), kind, name: this.#session.name });
    aside.end();
    if (answer.error) return this.#sawing.tell(say('file_failed', { why: answer.error.why }));
    download(answer.ok);
    this.#sawing.tell(say('file_made', { name: answer.ok.name }));
  }
}
