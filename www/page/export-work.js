import { download } from './design-file.js';
import { lengthUnit } from './length-unit.js';
import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { Exports } from './exports.js' */
/** @import { Session } from './session.js' */
/** @import { FileKind } from './messages.d.ts' */

/** Makes the files that can be taken away, and says how far it is. */
export class ExportWork {
  #bridge;
  #session;
  #exporting;

  /** @param {Bridge} bridge @param {Session} session @param {Exports} exporting */
  constructor(bridge, session, exporting) {
    this.#bridge = bridge;
    this.#session = session;
    this.#exporting = exporting;
    exporting.on('file', (kind) => this.#make(kind));
  }

  /** @param {FileKind} kind */
  async #make(kind) {
    const name = say(`file_${kind}`);
    this.#exporting.update(say('file_making', { name, words: '' }), 0);
    const { built: design, name: called, view, shop } = this.#session;
    const answer = await this.#bridge.ask('file', { kind, design, name: called, view, shop, unit: lengthUnit.value }, ({ done, total, words }) =>
      this.#exporting.update(say('file_making', { name, words }), total > 0 ? done / total : 0),
    );
    if (answer.error) return this.#exporting.update(say('file_failed', { why: answer.error.why }));
    download(answer.ok);
    this.#exporting.update(say('file_made', { name: answer.ok.name }));
  }
}
