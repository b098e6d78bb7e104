import { languages } from './languages.js';
import { say, speech } from './words.js';

/** What is said where the words of the language wished for could not be had. */
export function languageLost() {
  const { lost } = speech;
  const name = languages.find(({ code }) => code === lost?.code)?.name ?? '';
  return lost && say('language_lost', { language: name, why: lost.why });
}
