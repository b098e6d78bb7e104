import { el } from './dom.js';
import { say } from './words.js';

/** @import { Child } from './dom.js' */

/**
 * A dialog made when it is first opened, with its head and a button that closes it. It closes by Escape and by a press beside it too.
 * @param {string} name of the dialog, for its class and the id of its head
 * @param {string} head @param {...Child} children
 */
export function madeDialog(name, head, ...children) {
  const shut = el('button', { type: 'button', class: 'close-button', text: '×', 'aria-label': say('close_dialog'), onclick: () => dialog.close() });
  const dialog = el(
    'dialog',
    { class: `dialog ${name}-dialog`, 'aria-labelledby': `${name}-head` },
    el('div', { class: 'dialog-head' }, el('h2', { id: `${name}-head`, text: head }), shut),
    ...children,
  );
  dialog.addEventListener('pointerdown', (event) => {
    const { left, right, top, bottom } = dialog.getBoundingClientRect();
    const inside = event.clientX >= left && event.clientX <= right && event.clientY >= top && event.clientY <= bottom;
    if (event.target === dialog && !inside) dialog.close();
  });
  document.body.append(dialog);
  return dialog;
}
