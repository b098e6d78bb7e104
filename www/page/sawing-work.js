import { beside } from './beside.js';
import { download } from './design-file.js';
import { lengthUnit, sheetUnit } from './length-unit.js';
import { say } from './words.js';

/** @import { Run } from './job.js' */
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
  /** Whether the sets that are shown are those of the chair and the workshop that are shown; the number of chairs changes none. */
  #knowsSets = () => false;

  /** @param {Session} session @param {Sawing} sawing @param {(wish: SawingWish) => Order} orderOf what a plan is made for */
  constructor(session, sawing, orderOf) {
    this.#session = session;
    this.#sawing = sawing;
    this.#orderOf = orderOf;
    sawing.on('wanted', (wish) => this.#show(wish));
    sawing.on('file', ({ kind, ...wish }) => this.#file(kind, wish));
  }

  /** A plan of the order does not depend on the chair shown; whoever changes the order stops it. @param {SawingWish} wish */
  async #show(wish) {
    const isShown = wish.whole ? () => true : this.#session.watch();
    const end = await this.#sawing.job.run(say('plan_working'), (run) => this.#plan(wish, run, isShown));
    end?.();
  }

  /**
   * Shows one plan after the other.
   * @param {SawingWish} wish @param {Run} run @param {() => boolean} isShown
   * @returns {Promise<(() => void) | undefined>} how it ends; undefined where nobody wants it any more
   */
  #plan(wish, { signal, report }, isShown) {
    const isWanted = () => isShown() && !signal.aborted;
    const request = this.#request(wish);
    const { built: design, shop } = this.#session;
    return beside(signal, async (bridge) => {
      for (const effort of /** @type {const} */ (['quick', 'good'])) {
        const answer = await bridge.ask('plan', { ...request, effort }, report);
        if (!isWanted()) return undefined;
        if (answer.error) return () => this.#fail(answer.error.why);
        this.#sawing.update(answer.ok, effort === 'good');
      }
      if (wish.whole || this.#knowsSets()) return () => this.#sawing.end();
      const sets = await bridge.ask('sets', { design, shop }, report);
      if (!isWanted()) return undefined;
      if (sets.error) return () => this.#fail(sets.error.why);
      this.#knowsSets = isShown;
      return () => this.#sawing.showSets(sets.ok);
    });
  }

  /** Nothing stays shown, the sets neither. @param {string} why */
  #fail(why) {
    this.#knowsSets = () => false;
    this.#sawing.fail(why);
  }

  /** @param {SawingWish} wish */
  #request(wish) {
    const { shop, view } = this.#session;
    return { order: this.#orderOf(wish), shop, view: { scheme: view.scheme }, unit: sheetUnit() };
  }

  /** @param {PlanFile} kind @param {SawingWish} wish */
  async #file(kind, wish) {
    const request = this.#request(wish);
    const whole = { ...request, kind, unit: lengthUnit.value, name: request.order.name || this.#session.name };
    const words = say('file_making', { name: say(`file_${kind}`) });
    const answer = await this.#sawing.filing.run(words, ({ signal, report }) => beside(signal, (bridge) => bridge.ask('planFile', whole, report)));
    if (!answer) return;
    if (answer.error) return this.#sawing.tell(say('file_failed', { why: answer.error.why }));
    download(answer.ok);
    this.#sawing.tell(say('file_made', { name: answer.ok.name }));
  }
}
