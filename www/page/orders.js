import { Bridge } from './bridge.js';
import { download, fileStem } from './design-file.js';
import { savePdf } from './pdf-file.js';
import { say } from './words.js';

/** @import { Order, QuoteWish } from './messages.d.ts' */
/** @import { Price } from './price.js' */
/** @import { Session } from './session.js' */

/**
 * The order of the last chair that could be built.
 * @param {Session} session @param {Pick<QuoteWish, 'quantity' | 'customer'>} wish @returns {Order}
 */
export function orderOf({ name, built }, { quantity, customer }) {
  return { crestrail: 'order/2', name, customer, lines: [{ name, quantity, knobs: built }] };
}

/** The quote as PDF. @param {Bridge} bridge @param {Session} session @param {Price} price @param {Order} order @param {QuoteWish} wish */
export async function printQuote(bridge, session, price, order, wish) {
  price.quote.tell(say('quote_making'));
  await savePdf(
    (words) => price.quote.tell(words),
    (fonts) => bridge.ask('quotePdf', { asked: { ...asked(session, order, wish), paper: wish.paper }, fonts }),
    'quote',
  );
}

/** The quote as a page. @param {Bridge} bridge @param {Session} session @param {Price} price @param {Order} order @param {QuoteWish} wish */
export async function writeQuote(bridge, session, price, order, wish) {
  price.quote.tell(say('quote_making'));
  const answer = await bridge.ask('quote', asked(session, order, wish));
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
export async function showBreaks(session, price, order, isWanted) {
  const aside = new Bridge();
  const answer = await aside.ask('order', { order, shop: session.shop });
  aside.end();
  if (!isWanted()) return;
  if (answer.error) price.quote.failBreaks(answer.error.why);
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
  const { promise: stopped, resolve: stop } = Promise.withResolvers();
  price.moves.on('stop', () => stop(undefined));
  const asked = aside.ask('tornado', { design: built, shop }, (progress) => isShown() && price.moves.progress(progress));
  const answer = await Promise.race([asked, stopped]);
  aside.end();
  if (!answer) return price.moves.fail(say('stopped'));
  if (!isShown()) return;
  if (answer.error) price.moves.fail(answer.error.why);
  else price.moves.update(answer.ok);
}
