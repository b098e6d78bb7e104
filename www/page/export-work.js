import { beside } from './beside.js';
import { download } from './design-file.js';
import { lengthUnit } from './length-unit.js';
import { say } from './words.js';

/** @import { Exports } from './exports.js' */
/** @import { Session } from './session.js' */
/** @import { FileKind } from './messages.d.ts' */

/** Makes the files that can be taken away, and says how far it is. */
export class ExportWork {
  #session;
  #exporting;

  /** @param {Session} session @param {Exports} exporting */
  constructor(session, exporting) {
    this.#session = session;
    this.#exporting = exporting;
    exporting.on('file', (kind) => this.#make(kind));
  }

  /** @param {FileKind} kind */
  async #make(kind) {
    const { built: design, name, view, shop } = this.#session;
    const request = { kind, design, name, view, shop, unit: lengthUnit.value };
    const words = say('file_making', { name: say(`file_${kind}`) });
    const answer = await this.#exporting.job.run(words, ({ signal, report }) => beside(signal, (bridge) => bridge.ask('file', request, report)));
    if (!answer) return;
    if (answer.error) return this.#exporting.update(say('file_failed', { why: answer.error.why }));
    download(answer.ok);
    this.#exporting.update(say('file_made', { name: answer.ok.name }));
  }
}
