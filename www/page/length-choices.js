import { el } from './dom.js';
import { lengths, units } from './length.js';
import { nameOf, say } from './words.js';

/** What lengths are written in. */
export function lengthChoices() {
  const options = units.map((unit) => {
    const input = el('input', { type: 'radio', name: 'lengths', value: unit, 'aria-label': nameOf(say(`lengths_${unit}`), say(`lengths_name_${unit}`)) });
    input.checked = unit === lengths.unit;
    input.addEventListener('change', () => lengths.choose(unit));
    return el('label', { class: 'choice' }, input, el('span', { text: say(`lengths_${unit}`) }));
  });
  return el('fieldset', { class: 'menu-schemes' }, el('legend', { text: say('lengths') }), el('div', { class: 'choices' }, ...options));
}
