import { beside } from './beside.js';
import { debounce } from './dom.js';
import { lengthUnit } from './length-unit.js';
import { savePdf } from './pdf-file.js';
import { say } from './words.js';

/** @import { BenchSteps } from './bench-steps.js' */
/** @import { Bridge } from './bridge.js' */
/** @import { Session } from './session.js' */
/** @import { WorkPrint } from './messages.d.ts' */

/** How long the knobs rest before the steps are worked out, in milliseconds. */
const REST = 150;
/** Pixels of a step's picture: letters stay legible when it is shown at two thirds. */
const SIDE = 360;

/** Fills the order of work when the knobs have come to rest, and saves its pages and its card. */
export class BenchStepsWork {
  #bridge;
  #session;
  #steps;
  /** Why there are no steps; empty where there are. */
  #failed = '';

  /** @param {Bridge} bridge @param {Session} session @param {BenchSteps} steps */
  constructor(bridge, session, steps) {
    this.#bridge = bridge;
    this.#session = session;
    this.#steps = steps;
    steps.on('wanted', debounce(REST, () => this.#show()));
    steps.on('print', (wish) => this.#print(wish));
  }

  /** An answer about an earlier chair is let go. */
  async #show() {
    const { built: design, shop } = this.#session;
    const isShown = this.#session.watch();
    const view = { width: SIDE, height: SIDE, scheme: this.#session.view.scheme };
    const answer = await this.#bridge.ask('work', { design, shop, view, unit: lengthUnit.value });
    if (!isShown()) return;
    const failed = answer.error ? say('file_failed', { why: answer.error.why }) : '';
    // What a job told stays: only what this told goes.
    if (failed !== this.#failed) this.#steps.tell((this.#failed = failed));
    if (answer.ok) this.#steps.list(answer.ok);
  }

  /** @param {WorkPrint} wish */
  async #print(wish) {
    const { built: design, name, shop } = this.#session;
    const made = { ...wish, design, name, shop };
    /** What came of it is told when the job has ended: then the buttons work again. */
    let came = '';
    const tell = (/** @type {string} */ words) => (came = words);
    const ended = await this.#steps.job.run(say('sheet_making'), async ({ signal }) => {
      // Lines are broken by the typefaces for a drawing too.
      await savePdf(tell, (fonts) => beside(signal, (bridge) => bridge.ask('workPages', { wish: made, fonts })));
      return true;
    });
    if (ended) this.#steps.tell(came);
  }
}
