import { kept } from './store.js';

/** The languages that the page has words in, each by its own name. The first needs no catalogue to be fetched. */
export const languages = /** @type {const} */ ([
  { code: 'en', name: 'English' },
  { code: 'fr', name: 'Français' },
  { code: 'de', name: 'Deutsch' },
  { code: 'es', name: 'Español' },
  { code: 'sw', name: 'Kiswahili' },
  { code: 'ar', name: 'العربية' },
]);

/** The name under which a choice of language is kept. */
export const KEY = 'language';
/** The same for the Showroom, whose maker's language holds until its reader chooses another. */
export const ROOM_KEY = 'showroom-language';

/** The language of a tag of BCP 47: `fr` of `fr-CH`. @param {string} tag */
export function languageOf(tag) {
  return tag.split('-')[0]?.toLowerCase() ?? '';
}

/** @param {string} tag */
export function isKnown(tag) {
  return languages.some(({ code }) => code === languageOf(tag));
}

/** Whether a language is written from right to left. @param {string} code */
export function isRightToLeft(code) {
  return code === 'ar';
}

/**
 * The tag in which a page speaks that its reader chooses the language of: the one chosen here, else the first of the browser's that
 * the page has words in, else English. A region comes from the browser's list, for the custom of its figures.
 * @param {string | null} chosen
 * @param {readonly string[]} browser the browser's languages, most wished first
 */
export function tagFor(chosen, browser) {
  const code = chosen !== null && isKnown(chosen) ? chosen : languageOf(browser.find(isKnown) ?? 'en');
  return browser.find((tag) => languageOf(tag) === code) ?? code;
}

/**
 * The tag that this page is to speak in. `data-language` of the page says who decides: its reader (`chosen`), or, until its reader
 * chooses, the showroom's file that this browser keeps (`showroom`) or the `lang` that was written when the page was published.
 */
export function wishedTag() {
  const { lang, dataset } = document.documentElement;
  if (dataset.language === 'chosen') return tagFor(kept(KEY), navigator.languages);
  const tag = (dataset.language === 'showroom' && tagOfShowroom(kept('showroom'))) || lang;
  const makers = isKnown(tag) ? tag : 'en';
  const chosen = kept(ROOM_KEY);
  return chosen === null || !isKnown(chosen) || chosen === languageOf(makers) ? makers : tagFor(chosen, navigator.languages);
}

/** What a showroom's file says of its language; the core says later what is wrong with a file that cannot be read. @param {string | null} text */
function tagOfShowroom(text) {
  return /"language"\s*:\s*"([\w-]{2,40})"/.exec(text ?? '')?.[1];
}
