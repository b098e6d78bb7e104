import { beside } from './beside.js';
import { download, fileStem } from './design-file.js';
import { savePdf } from './pdf-file.js';
import { say } from './words.js';

/** @import { Order, Progress, QuoteWish } from './messages.d.ts' */
/** @import { Price } from './price.js' */
/** @import { Session } from './session.js' */

/**
 * The order of the last chair that could be built.
 * @param {Session} session @param {Pick<QuoteWish, 'quantity' | 'customer'>} wish @returns {Order}
 */
export function orderOf({ name, built }, { quantity, customer }) {
  return { crestrail: 'order/2', name, customer, lines: [{ name, quantity, knobs: built }] };
}

/** The quote as PDF. @param {Session} session @param {Price} price @param {Order} order @param {QuoteWish} wish */
export async function printQuote(session, price, order, wish) {
  const quoted = { ...asked(session, order, wish), paper: wish.paper };
  await price.quote.job.run(say('quote_making'), ({ signal }) =>
    savePdf(
      (words) => price.quote.tell(words),
      (fonts) => beside(signal, (bridge) => bridge.ask('quotePdf', { asked: quoted, fonts })),
      'quote',
    ),
  );
}

/** The quote as a page. @param {Session} session @param {Price} price @param {Order} order @param {QuoteWish} wish */
export async function writeQuote(session, price, order, wish) {
  const answer = await price.quote.job.run(say('quote_making'), ({ signal }) => beside(signal, (bridge) => bridge.ask('quote', asked(session, order, wish))));
  if (!answer) return;
  if (answer.error) return price.quote.tell(say('file_failed', { why: answer.error.why }));
  save(price, `quote ${wish.number}`, 'html', 'text/html;charset=utf-8', answer.ok);
}

/** @param {Session} session @param {Order} order @param {QuoteWish} wish */
function asked({ view, shop }, order, { number, date }) {
  return { order, number, date, shop, view };
}

/** @param {Price} price @param {Order} order */
export function saveOrder(price, order) {
  const name = order.name || order.lines[0]?.name || '';
  save(price, name, 'order.json', 'application/json', `${JSON.stringify(order, null, 2)}\n`);
}

/** @param {Price} price @param {string} name @param {string} ending @param {string} type @param {string} bytes */
function save(price, name, ending, type, bytes) {
  const file = `${fileStem(name)}.${ending}`;
  download({ name: file, type, bytes });
  price.quote.tell(say('quote_made', { name: file }));
}

/**
 * The price by number of chairs, in a worker of its own: of a large bench it takes seconds. An answer about what is no longer
 * asked is let go.
 * @param {Session} session @param {Price} price @param {Order} order @param {() => boolean} isWanted
 */
export async function showBreaks({ shop }, price, order, isWanted) {
  const answer = await price.quote.breaking.run(say('breaks_making'), ({ signal }) => beside(signal, (bridge) => bridge.ask('order', { order, shop })));
  if (!answer || !isWanted()) return;
  if (answer.error) price.quote.failBreaks(answer.error.why);
  else price.quote.update(answer.ok);
}

/**
 * What moves the price, in a worker of its own, so that the knobs stay quick while hundreds of chairs are tried; an answer
 * about a chair that is no longer shown is let go.
 * @param {Session} session @param {Price} price
 */
export async function showMoves(session, { moves }) {
  const { built: design, shop } = session;
  const isShown = session.watch();
  const counted = (/** @type {Progress} */ { done, total }) => ({ done, total, words: say('moves_trying', { done, total }) });
  const answer = await moves.job.run(say('fit_making'), ({ signal, report }) =>
    beside(signal, (bridge) => bridge.ask('tornado', { design, shop }, (progress) => report(counted(progress)))),
  );
  if (!answer || !isShown()) return;
  if (answer.error) moves.fail(answer.error.why);
  else moves.update(answer.ok);
}
