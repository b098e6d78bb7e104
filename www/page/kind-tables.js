/** @import { Bridge } from './bridge.js' */
/** @import { Answer, Design, Knob, Turned } from './messages.d.ts' */

/** The knobs of each kind of chair as the core tells them, asked for once. */
export class KindTables {
  #bridge;
  /** @type {Map<string, Knob[]>} */
  #known = new Map();

  /** @param {Bridge} bridge */
  constructor(bridge) {
    this.#bridge = bridge;
  }

  /**
   * The knobs of the design's kind, which is a side chair unless it says otherwise.
   * @param {Design} design
   * @returns {Promise<Knob[] | undefined>} undefined where the worker has died, which is told by the bridge
   */
  async of({ family }) {
    const known = this.#known.get(String(family));
    if (known) return known;
    const answer = await this.#bridge.ask('knobs', family === undefined ? null : { family: String(family) });
    if (answer.ok) this.#known.set(String(family), answer.ok);
    else if (answer.error.where !== 'worker') throw new Error(answer.error.why);
    return answer.ok;
  }

  /**
   * The design as another kind of chair, and what could not be kept.
   * @param {Design} design @param {string} family
   * @returns {Promise<Answer<Turned>>}
   */
  turn(design, family) {
    return this.#bridge.ask('turnInto', { design, family });
  }
}
