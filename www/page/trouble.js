import { byId, setText } from './dom.js';
import { say } from './words.js';

/** Says in the place of the chair why nothing is computed, with a way to try again. @param {string} why as the worker told it */
export async function tellTrouble(why) {
  const box = byId('trouble');
  const show = (/** @type {string} */ words) => {
    for (const line of /** @type {NodeListOf<HTMLElement>} */ (box.querySelectorAll('[data-trouble]'))) line.hidden = line.dataset.trouble !== 'load';
    setText(byId('trouble-load'), words);
    box.dataset.kind = 'load';
    box.hidden = false;
  };
  document.getElementById('loading')?.setAttribute('hidden', '');
  document.documentElement.dataset.fault = '';
  byId('trouble-again').onclick = () => location.reload();
  show(say('trouble_core', { why }));
  try {
    show(await (await import('./diagnosis.js')).diagnosis(why));
  } catch {
    show(say('trouble_load'));
  }
}
