import { Bridge } from './bridge.js';
import { download, fileStem } from './design-file.js';
import { say } from './words.js';

/** @import { Order, QuoteWish } from './messages.d.ts' */
/** @import { Price } from './price.js' */
/** @import { Session } from './session.js' */

/** How the chair is drawn on a quote: whole, for a customer, on white paper. */
const QUOTE_PICTURE = /** @type {const} */ ({ spread: 0, scheme: 'light', letters: false, width: 420, height: 360 });

/**
 * The order of the last chair that could be built.
 * @param {Session} session @param {Pick<QuoteWish, 'quantity' | 'customer'>} wish @returns {Order}
 */
export function orderOf({ name, built }, { quantity, customer }) {
  return { crestrail: 'order/1', name, customer, lines: [{ name, quantity, knobs: built }] };
}

/** @param {Bridge} bridge @param {Session} session @param {Price} price @param {QuoteWish} wish */
export async function makeQuote(bridge, session, price, wish) {
  price.quote.tell(say('quote_making'));
  const { number, date } = wish;
  const view = { ...session.view, ...QUOTE_PICTURE };
  const answer = await bridge.ask('quote', { order: orderOf(session, wish), number, date, shop: session.shop, view });
  if (answer.error) return price.quote.tell(say('file_failed', { why: answer.error.why }));
  save(price, `quote ${number}`, 'html', 'text/html;charset=utf-8', answer.ok);
}

/** @param {Session} session @param {Price} price @param {QuoteWish} wish */
export function saveOrder(session, price, wish) {
  save(price, session.name, 'order.json', 'application/json', `${JSON.stringify(orderOf(session, wish), null, 2)}\n`);
}

/** @param {Price} price @param {string} name @param {string} ending @param {string} type @param {string} bytes */
function save(price, name, ending, type, bytes) {
  const file = `${fileStem(name)}.${ending}`;
  download({ name: file, type, bytes });
  price.quote.tell(say('quote_made', { file }));
}

/**
 * The price by number of chairs; an answer about a chair that is no longer shown is let go.
 * @param {Bridge} bridge @param {Session} session @param {Price} price @param {QuoteWish} wish
 */
export async function showBreaks(bridge, session, price, wish) {
  const isShown = session.watch();
  const answer = await bridge.ask('order', { order: orderOf(session, wish), shop: session.shop });
  if (!isShown()) return;
  if (answer.error) price.quote.tell(answer.error.why);
  else price.quote.update(answer.ok);
}

/**
 * What moves the price, in a worker of its own, so that the knobs stay quick while hundreds of chairs are tried; an answer
 * about a chair that is no longer shown is let go.
 * @param {Session} session @param {Price} price
 */
export async function showMoves(session, price) {
  const { built, shop } = session;
  const isShown = session.watch();
  const aside = new Bridge();
  const answer = await aside.ask('tornado', { design: built, shop }, (progress) => isShown() && price.moves.progress(progress));
  aside.end();
  if (!isShown()) return;
  if (answer.error) price.moves.fail(answer.error.why);
  else price.moves.update(answer.ok);
}
