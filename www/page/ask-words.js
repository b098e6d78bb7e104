import { number } from './format.js';
import { say } from './words.js';

/** @import { Overall } from './messages.d.ts' */

/**
 * How long the address that opens a mail program may be, in characters. No standard sets an end (RFC 6068); Windows hands
 * programs at most 2083, its longest address of the web (from memory), and the least of what is usual counts.
 */
const LONGEST = 1900;

/**
 * @typedef {object} Asked
 * @property {string} offer
 * @property {number} count
 * @property {string} customer may be empty
 * @property {string[]} choices what differs from the offer's first values, in words
 * @property {Overall} overall
 * @property {string | null} price as it was shown
 * @property {string} link
 */

/**
 * The subject and the lines of a mail. @param {Asked} asked
 * @returns {{ subject: string, lines: string[] }}
 */
export function askWords({ offer, count, customer, choices, overall, price, link }) {
  const { width, depth, height, seat_height: seat } = overall;
  const [w, d, h, s] = [width, depth, height, seat].map((size) => number(size, 0));
  return {
    subject: say('ask_subject', { offer, count }),
    lines: [
      say('ask_hello', { count, offer }),
      ...(customer ? [say('ask_name', { customer })] : []),
      say('ask_link', { link }),
      ...(price ? [say('ask_price', { price })] : []),
      say('ask_size', { width: w ?? '', depth: d ?? '', height: h ?? '', seat: s ?? '' }),
      ...choices,
    ],
  };
}

/**
 * The address that opens a mail program with these words (RFC 6068: lines end with CR LF). What is too long for it loses its
 * last lines, which the link says too.
 * @param {string} mail @param {{ subject: string, lines: string[] }} words
 */
export function mailAddress(mail, { subject, lines }) {
  const made = (/** @type {string[]} */ some) => `mailto:${mail}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(some.join('\r\n'))}`;
  const kept = [...lines];
  while (kept.length > 1 && made(kept).length > LONGEST) kept.pop();
  return made(kept);
}
