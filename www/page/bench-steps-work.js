import { download } from './design-file.js';
import { sheetFonts } from './sheet-fonts.js';
import { say } from './words.js';

/** @import { BenchSteps } from './bench-steps.js' */
/** @import { Bridge } from './bridge.js' */
/** @import { Session } from './session.js' */
/** @import { WorkPrint } from './messages.d.ts' */

/** Pixels of a step's picture: letters stay legible when it is shown at two thirds. */
const SIDE = 360;

/**
 * Fills the list with the work at the chair that is shown; an answer about an earlier one is let go.
 * @param {Bridge} bridge @param {Session} session @param {BenchSteps} steps
 */
export async function listWork(bridge, session, steps) {
  const { built: design, shop } = session;
  const isShown = session.watch();
  const view = { width: SIDE, height: SIDE, scheme: session.view.scheme };
  const answer = await bridge.ask('work', { design, shop, view });
  if (!isShown()) return;
  steps.tell(answer.error ? say('file_failed', { why: answer.error.why }) : '');
  if (answer.ok) steps.list(answer.ok);
}

/**
 * Makes the pages or the card and saves them.
 * @param {Bridge} bridge @param {Session} session @param {BenchSteps} steps @param {WorkPrint} wish
 */
export async function printWork(bridge, session, steps, wish) {
  steps.tell(say('sheet_making'));
  const fonts = await sheetFonts().catch((why) => steps.tell(say('sheet_no_font', { why: String(why) })));
  if (!fonts) return;
  const request = { ...wish, design: session.built, name: session.name, shop: session.shop };
  const answer = await bridge.ask('workPages', { wish: request, fonts });
  if (answer.error) return steps.tell(say('file_failed', { why: answer.error.why }));
  download(answer.ok);
  const { name, missing } = answer.ok;
  steps.tell(say(missing ? 'sheet_made_without' : 'sheet_made', { name, missing: [...missing].join(' ') }));
}
