import { beside } from './beside.js';
import { fittedWords } from './fit.js';
import { say } from './words.js';

/** @import { Fit } from './fit.js' */
/** @import { Design } from './messages.d.ts' */
/** @import { Notices } from './notices.js' */
/** @import { Session } from './session.js' */

/** Sets the knobs to what suits the sitter best: tried in a worker of its own, so that it can be stopped. */
export class FitWork {
  #session;
  #fit;
  #notices;
  #open;

  /**
   * @param {Session} session @param {Fit} fit @param {Notices} notices
   * @param {(design: Design, words: string, before: { design: Design, name: string }) => unknown} open shows the design, and tells what was done with a way back
   */
  constructor(session, fit, notices, open) {
    this.#session = session;
    this.#fit = fit;
    this.#notices = notices;
    this.#open = open;
    fit.on('make', () => this.#make());
  }

  async #make() {
    const { design, name, shop, knobs } = this.#session;
    const answer = await this.#fit.job.run(say('fit_making'), ({ signal, report }) => beside(signal, (bridge) => bridge.ask('makeItFit', { design, shop }, report)));
    if (!answer) return;
    this.#fit.tell('');
    if (design !== this.#session.design) return;
    if (answer.error) return this.#notices.tell('fit', say('fit_failed', { why: answer.error.why }), { stays: true });
    const words = fittedWords(answer.ok, knobs);
    if (answer.ok.changed.length === 0) return this.#notices.tell('fit', words, { stays: true });
    await this.#open(answer.ok.design, words, { design, name });
  }
}
