import { byId } from './dom.js';

/** @import { Bridge } from './bridge.js' */
/** @import { CheckIn } from './checkin.js' */
/** @import { Habits } from './habits.js' */
/** @import { Design } from './messages.d.ts' */
/** @import { Session } from './session.js' */

/** @typedef {{ design: Design, name: string, quantity: number, customer: string }} Line of what a customer sent */

/** Checking in what a customer sent: its dialog is loaded when it is first wanted. */
export class CheckInWork {
  #bridge;
  #session;
  #habits;
  #opened;
  /** @type {CheckIn | undefined} */
  #dialog;

  /** @param {Bridge} bridge @param {Session} session @param {Habits} habits @param {(line: Line) => unknown} opened shows a chair of it */
  constructor(bridge, session, habits, opened) {
    this.#bridge = bridge;
    this.#session = session;
    this.#habits = habits;
    this.#opened = opened;
  }

  open() {
    this.#habits.load(async () => (await this.#made()).open());
  }

  /** @param {string} text */
  check(text) {
    this.#habits.load(async () => (await this.#made()).check(text));
  }

  async #made() {
    const { CheckIn } = await import('./checkin.js');
    if (this.#dialog) return this.#dialog;
    this.#dialog = new CheckIn(byId('checkin', HTMLDialogElement), this.#bridge, () => ({ shop: this.#session.shop, showroom: this.#session.showroom }));
    this.#dialog.on('open', this.#opened);
    return this.#dialog;
  }
}
