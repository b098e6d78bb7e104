/** @import { Design } from './messages.d.ts' */

/** @typedef {{ design: Design, name: string }} State what one step leads to */

/** So many steps can be taken back. */
export const MOST_STEPS = 100;

/**
 * What was done and can be taken back, as a value that never changes: each call gives another.
 * A run of changes of the same kind, as while a slider is dragged, is one step.
 */
export class History {
  /** @type {readonly State[]} */
  #states;
  #at;
  /** What the last step was, for a run of its like; absent where the next is a step of its own. */
  #run;

  /** @param {readonly State[]} [states] the earliest first @param {number} [at] which of them is shown @param {string} [run] */
  constructor(states = [], at = states.length - 1, run) {
    this.#states = states;
    this.#at = at;
    this.#run = run;
  }

  get present() {
    return this.#states[this.#at];
  }

  get canUndo() {
    return this.#at > 0;
  }

  get canRedo() {
    return this.#at < this.#states.length - 1;
  }

  /**
   * With what is shown now. What had been taken back is gone then.
   * @param {State} state
   * @param {string} [run] steps in a row that name the same run are one
   */
  note(state, run) {
    const { present } = this;
    if (present && same(present.design, state.design)) return this.#named(state.name);
    const goesOn = run !== undefined && run === this.#run && this.#at > 0;
    const before = this.#states.slice(0, goesOn ? this.#at : this.#at + 1);
    const last = before.at(-1);
    // A run that ends where it began is no step.
    if (last && same(last.design, state.design)) return new History(before).#named(state.name);
    return new History([...before, state].slice(-MOST_STEPS - 1), undefined, run);
  }

  undo() {
    return this.canUndo ? new History(this.#states, this.#at - 1) : this;
  }

  redo() {
    return this.canRedo ? new History(this.#states, this.#at + 1) : this;
  }

  /** A name belongs to the present chair, and is no step. @param {string} name */
  #named(name) {
    if (this.present?.name === name) return this;
    return new History(this.#states.map((state, i) => (i === this.#at ? { ...state, name } : state)), this.#at, this.#run);
  }

  /** As a text to be kept: of each state only what differs from the one before. */
  write() {
    let before = /** @type {Design} */ ({});
    const steps = this.#states.map(({ design, name }) => {
      const change = Object.entries(design).filter(([knob, value]) => before[knob] !== value);
      const gone = Object.keys(before).filter((knob) => design[knob] === undefined);
      before = design;
      return { name, change: Object.fromEntries(change), ...(gone.length > 0 && { gone }) };
    });
    return JSON.stringify({ crestrail: 'history/1', at: this.#at, steps });
  }

  /**
   * What was written; an empty one where the text is none of ours.
   * @param {string | null} text
   */
  static read(text) {
    try {
      const { crestrail, at, steps } = JSON.parse(text ?? '');
      if (crestrail !== 'history/1' || !Number.isInteger(at) || !(at >= 0 && at < steps.length) || steps.length > MOST_STEPS + 1) return new History();
      let design = /** @type {Design} */ ({});
      const states = steps.map((/** @type {any} */ { name, change, gone = [] }) => {
        if (typeof name !== 'string' || !isDesign(change)) throw new TypeError('no step');
        design = Object.fromEntries(Object.entries({ ...design, ...change }).filter(([knob]) => !gone.includes(knob)));
        return { design, name };
      });
      return new History(states, at);
    } catch {
      return new History();
    }
  }
}

/** @param {Design} one @param {Design} other */
export function same(one, other) {
  const knobs = Object.keys(one);
  return knobs.length === Object.keys(other).length && knobs.every((knob) => one[knob] === other[knob]);
}

/** @param {unknown} value @returns {value is Design} */
export function isDesign(value) {
  return typeof value === 'object' && value !== null && !Array.isArray(value) && Object.values(value).every((is) => typeof is === 'string' || Number.isFinite(is));
}
