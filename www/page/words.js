import { isRightToLeft, languageOf, wishedTag } from './languages.js';
import { customerWords } from './words-customers.js';
import { dimensionWords } from './words-dimensions.js';
import { frameWords } from './words-frame.js';
import { habitWords } from './words-habits.js';
import { listWords } from './words-lists.js';
import { pageWords } from './words-page.js';
import { paperWords } from './words-papers.js';
import { wordsOf } from './words-source.js';

/**
 * The page's own words, by key; the core brings the words of knobs, parts, joints and findings.
 * `{name}` stands for a value. `one|other` forms are chosen by the number `count`.
 */
const english = { ...frameWords, ...pageWords, ...listWords, ...paperWords, ...customerWords, ...dimensionWords, ...habitWords };

/** @typedef {keyof typeof english} Word */
/** @typedef {string | Partial<Record<Intl.LDMLPluralRule, string>>} Wording words, or one wording for each plural category */
/** @typedef {Record<string, Wording>} Catalogue */
/** @typedef {Record<string, string | number>} Values */

/**
 * How the page speaks: `code` is the language of its words, `language` the tag after whose custom figures, money and dates are written. `lost` says
 * why the words of another language could not be had, so that the page is in English. `core` is the text that the core reads its texts
 * in this language from.
 */
export const speech = {
  code: 'en',
  language: 'en',
  rightToLeft: false,
  core: /** @type {string | undefined} */ (undefined),
  lost: /** @type {{ code: string, why: string } | undefined} */ (undefined),
};

/** @type {Catalogue} */
let catalogue = {};
let plurals = new Intl.PluralRules('en');

/** Scripts that run from right to left (Unicode Standard Annex 9, classes R and AL; the blocks that hold them). */
const FROM_RIGHT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;
/** Isolates a value from the text around it, whichever way each of them runs (Unicode Standard Annex 9: FSI and PDI). */
const ISOLATED = /** @type {const} */ (['\u2068', '\u2069']);
/** What programs read, and must find without anything beside it. */
const BARE = ['link'];

/**
 * Speaks with these words from now on. @param {string} code @param {Catalogue} words by key; what is missing stays English
 */
export function use(code, words) {
  catalogue = words;
  plurals = new Intl.PluralRules(code);
  Object.assign(speech, { code, rightToLeft: isRightToLeft(code) });
}

/** Writes figures from now on as this region does. @param {string} tag such as `en-GB`, of the language in force */
export function speak(tag) {
  speech.language = figuresTag(tag);
  document.documentElement.lang = tag;
  document.documentElement.dir = speech.rightToLeft ? 'rtl' : 'ltr';
}

/**
 * Figures are compared with a rule and with the drawing, which have the digits 0 to 9 everywhere; so the page has them too where a
 * region's custom is another.
 * @param {string} tag
 */
export function figuresTag(tag) {
  return new Intl.NumberFormat(tag).resolvedOptions().numberingSystem === 'latn' ? tag : `${tag}-u-nu-latn`;
}

/**
 * The words for `key`, with its values put in.
 * @param {Word} key
 * @param {Values} [values]
 */
export function say(key, values) {
  return sayOf(english, key, values);
}

/**
 * The words for a key of an area that is not part of every page.
 * @template {Record<string, string>} Area
 * @param {Area} area its English
 * @param {keyof Area & string} key
 * @param {Values} [values]
 */
export function sayOf(area, key, values = {}) {
  const words = chosen(catalogue[key] ?? /** @type {string} */ (area[key]), values.count);
  return words.replace(/\{(\w+)\}/g, (hole, name) => (name in values ? isolated(String(values[name]), name) : hole));
}

/** @param {string} value @param {string} name of its place */
function isolated(value, name) {
  if (value === '' || BARE.includes(name) || (!speech.rightToLeft && !FROM_RIGHT.test(value))) return value;
  return ISOLATED[0] + value + ISOLATED[1];
}

/** @param {Wording} words @param {string | number | undefined} count */
function chosen(words, count) {
  if (typeof words !== 'string') return words[plurals.select(Number(count))] ?? words.other ?? '';
  const [one, other] = words.split('|');
  if (other === undefined || count === undefined) return words;
  return /** @type {string} */ (plurals.select(Number(count)) === 'one' ? one : other);
}

/** A text of somebody's own, such as a yard's name of a thickness, apart from what is around it. @param {string} value */
export function apart(value) {
  return isolated(value, '');
}

/** Several things in one line. @param {readonly string[]} things */
export function listed(things) {
  return things.map(apart).join(say('comma'));
}

/**
 * What a control is called for whoever hears it: what stands on it is always part of its name, word for word, since people speak that to it
 * (WCAG 2.2, 2.5.3). @param {string} label what stands on it @param {string} words what it does
 */
export function nameOf(label, words) {
  const plain = (/** @type {string} */ text) => ` ${text.toLocaleLowerCase(speech.code).replace(/[^\p{L}\p{N}]+/gu, ' ').trim()} `;
  return plain(words).includes(plain(label)) ? words : say('pair', { name: label, value: words });
}

/** A label in the middle of a sentence: German writes nouns large there too. @param {string} label */
export function within(label) {
  return speech.code === 'de' ? label : label.charAt(0).toLocaleLowerCase(speech.code) + label.slice(1);
}

/**
 * Fills the words into the static page: `data-word` the text, `data-word-name` the accessible name, `data-word-content` what a
 * line of the head tells.
 * @param {ParentNode} root
 * @param {(key: any) => string} [told]
 */
export function fillWords(root, told = say) {
  /** @param {string} attribute @param {(element: Element, words: string) => void} put */
  const fill = (attribute, put) => {
    for (const element of root.querySelectorAll(`[${attribute}]`)) put(element, told(element.getAttribute(attribute)));
  };
  fill('data-word', (element, words) => (element.textContent = words));
  fill('data-word-name', (element, words) => element.setAttribute('aria-label', words));
  fill('data-word-content', (element, words) => element.setAttribute('content', words));
}

/** Brings the words that this page is to speak, before any module says something at its start. */
async function begin() {
  // Without a page, as in a test, whoever wants other words calls `use`.
  if (typeof document === 'undefined') return;
  const tag = wishedTag();
  const code = languageOf(tag);
  try {
    if (code !== 'en') {
      const { page, core } = await wordsOf(code);
      use(code, page);
      speech.core = core;
    }
    speak(tag);
  } catch (why) {
    speech.lost = { code, why: String(why) };
    speak('en');
  }
}

await begin();
