import { Bridge } from './bridge.js';
import { download } from './design-file.js';
import { lengthUnit, sheetUnit } from './length-unit.js';
import { say } from './words.js';

/** @import { Order, PlanFile } from './messages.d.ts' */
/** @import { Sawing, SawingWish } from './sawing.js' */
/** @import { Session } from './session.js' */

/**
 * Works out the sawing plan in a worker of its own: quickly, then well, then the sets. Whatever comes about a chair that is
 * no longer shown is let go, and so is what has been stopped.
 */
export class SawingWork {
  #session;
  #sawing;
  #orderOf;
  /** @type {Bridge | undefined} */
  #aside;
  /** Whether the sets that are shown are those of the chair and the workshop that are shown; the number of chairs changes none. */
  #knowsSets = () => false;

  /** @param {Session} session @param {Sawing} sawing @param {(wish: SawingWish) => Order} orderOf what a plan is made for */
  constructor(session, sawing, orderOf) {
    this.#session = session;
    this.#sawing = sawing;
    this.#orderOf = orderOf;
    sawing.on('wanted', (wish) => this.#show(wish));
    sawing.on('stop', () => this.stop());
    sawing.on('file', ({ kind, ...wish }) => this.#file(kind, wish));
  }

  stop() {
    this.#aside?.end();
    this.#aside = undefined;
  }

  /** A plan of the order does not depend on the chair shown; whoever changes the order stops it. @param {SawingWish} wish */
  async #show(wish) {
    this.stop();
    const aside = new Bridge();
    this.#aside = aside;
    const isShown = wish.whole ? () => true : this.#session.watch();
    const isWanted = () => isShown() && aside === this.#aside;
    for (const effort of /** @type {const} */ (['quick', 'good'])) {
      const answer = await aside.ask('plan', { ...this.#request(wish), effort }, (progress) => isWanted() && this.#sawing.progress(progress));
      if (!isWanted()) return;
      if (answer.error) return this.#fail(answer.error.why);
      this.#sawing.update(answer.ok, effort === 'good');
    }
    if (wish.whole || this.#knowsSets()) return this.#end(() => this.#sawing.end());
    const { built: design, shop } = this.#session;
    const sets = await aside.ask('sets', { design, shop }, (progress) => isWanted() && this.#sawing.progress(progress));
    if (!isWanted()) return;
    if (sets.error) return this.#fail(sets.error.why);
    this.#knowsSets = isShown;
    this.#end(() => this.#sawing.showSets(sets.ok));
  }

  /** Nothing stays shown, the sets neither. @param {string} why */
  #fail(why) {
    this.#knowsSets = () => false;
    this.#end(() => this.#sawing.fail(why));
  }

  /** @param {() => void} tell */
  #end(tell) {
    this.stop();
    tell();
  }

  /** @param {SawingWish} wish */
  #request(wish) {
    const { shop, view } = this.#session;
    return { order: this.#orderOf(wish), shop, view: { scheme: view.scheme }, unit: sheetUnit() };
  }

  /** @param {PlanFile} kind @param {SawingWish} wish */
  async #file(kind, wish) {
    const aside = new Bridge();
    const request = this.#request(wish);
    const answer = await aside.ask('planFile', { ...request, kind, unit: lengthUnit.value, name: request.order.name || this.#session.name });
    aside.end();
    if (answer.error) return this.#sawing.tell(say('file_failed', { why: answer.error.why }));
    download(answer.ok);
    this.#sawing.tell(say('file_made', { name: answer.ok.name }));
  }
}
