import { el, setText } from './dom.js';
import { keep, kept, remember, remembered } from './store.js';
import { say } from './words.js';

/** @import { Word } from './words.js' */

/** Under this name it is kept that somebody has closed them. */
const CLOSED = 'hints-closed';

/**
 * A few hints for whoever is here for the first time, one after the other, in a line of their own above the knobs. Once closed they never
 * come again.
 * @param {HTMLElement} column where they stand, in front @param {Word[]} hints
 */
export function showHints(column, hints) {
  if (kept(CLOSED) !== null || remembered(CLOSED) !== null) return;
  let at = 0;
  const words = el('p', { class: 'hint-words', 'aria-live': 'polite' });
  const count = el('span', { class: 'hint-count', 'aria-hidden': 'true' });
  const next = el('button', { type: 'button', class: 'text-button', onclick: () => go(at + 1) });
  const shut = el('button', { type: 'button', class: 'close-button', text: '×', 'aria-label': say('hints_close'), onclick: () => close() });
  const box = el('aside', { class: 'hint', 'aria-label': say('hints') }, count, words, next, shut);
  const close = () => {
    const had = box.contains(document.activeElement);
    box.remove();
    if (!keep(CLOSED, '1')) remember(CLOSED, '1');
    if (had) /** @type {HTMLElement | null} */ (column.querySelector('input, button, summary'))?.focus();
  };
  const go = (/** @type {number} */ to) => {
    const hint = hints[to];
    if (!hint) return close();
    at = to;
    setText(count, `${at + 1}/${hints.length}`);
    setText(words, say(hint));
    setText(next, say(at + 1 < hints.length ? 'hints_next' : 'hints_done'));
  };
  box.addEventListener('keydown', ({ key }) => key === 'Escape' && close());
  go(0);
  column.prepend(box);
}
