import { el } from './dom.js';
import { KEY, languages } from './languages.js';
import { keep } from './store.js';
import { say, speech } from './words.js';

/**
 * The choice of language. The page begins anew in the one chosen, with the design that it keeps.
 * @param {string} id of the control
 * @param {string} [key] under which the choice is kept
 * @returns {HTMLElement}
 */
export function languageMenu(id, key = KEY) {
  const options = languages.map(({ code, name }) => el('option', { value: code, lang: code, text: name }));
  const select = el('select', { id, class: 'language' }, ...options);
  select.value = speech.code;
  const said = el('p', { class: 'language-said', role: 'status' });
  select.addEventListener('change', () => {
    if (keep(key, select.value)) return location.reload();
    select.value = speech.code;
    said.textContent = say('language_unkept');
  });
  return el('div', { class: 'language-menu' }, el('label', { for: id, text: say('language') }), select, said);
}
