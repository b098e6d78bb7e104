// The catalogues of the page's words, held against the English ones, the glossary, and the texts of scripts and pages.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { languages } from '../../www/page/languages.js';
import { areas, catalogueOf, coreOf, english, files, glossary, isWords, root, wordings } from './catalogue.js';

const others = languages.map(({ code }) => code).filter((code) => code !== 'en');
/** A row of plural forms of the core, whose key is one word of a sentence. */
const isPlural = (entry) => typeof entry !== 'string';
const holes = (words) => [...new Set(words.match(/\{\w+\}/g) ?? [])].sort();

/** Where the English word is not the term, or part of another one: by term, keys of the page or sentences of the core. */
const otherSense = {
  // Mortise chisels and cutters have a name of their own.
  mortise: /setup_cutters|mortise cutter/,
  // Those of a body.
  shoulder: /lift the shoulders|shoulders go up/,
  // Long grain and end grain are words of their own; wood across its grain is wood that moves.
  grain: /long grain|end of the grain|cheeks and the backs/,
  // A board foot is a unit; the board of a pad is its base.
  board: /board_feet|setup_board_foot|board ft|pad board|Finished parts are/,
  // The round stuff that dowels are cut from.
  rod: /dowel rod|of rod/,
  // Wood glued to a greater thickness.
  glue: /glue (it|them|the pieces|the boards) up|glue th|glued up|swell/,
};

for (const code of others) {
  const catalogue = catalogueOf(code);

  test(`${code}: every word is there and none that nobody says`, () => {
    const missing = Object.keys(english).filter((key) => !(key in catalogue));
    const needless = Object.keys(catalogue).filter((key) => !(key in english));
    assert.deepEqual({ missing, needless }, { missing: [], needless: [] });
    for (const [key, entry] of Object.entries(catalogue)) for (const words of wordings(entry)) assert.ok(words.trim() !== '', key);
  });

  test(`${code}: each sentence has the values of the English one`, () => {
    for (const [key, entry] of Object.entries(catalogue)) {
      const wanted = holes(english[key] ?? '').filter((hole) => hole !== '{count}');
      for (const words of wordings(entry)) {
        assert.deepEqual(holes(words).filter((hole) => hole !== '{count}' || typeof entry === 'string'), typeof entry === 'string' ? holes(english[key]) : wanted, `${key}: ${words}`);
      }
    }
  });

  test(`${code}: whatever is counted has a form for each plural category of the language`, () => {
    const { pluralCategories } = new Intl.PluralRules(code).resolvedOptions();
    for (const [key, entry] of Object.entries(catalogue)) {
      assert.equal(typeof entry === 'object', english[key].includes('|'), `${key} has forms in one language alone`);
      if (typeof entry === 'object') assert.deepEqual(Object.keys(entry).sort(), [...pluralCategories].sort(), key);
    }
  });

  test(`${code}: the terms of the trade are those of the glossary, in the words of the page and of the core`, () => {
    const core = coreOf(code);
    const wrong = [];
    for (const row of glossary().filter(({ held }) => held.length > 0)) {
      const term = row.en[0];
      const says = new RegExp(`\\b(${row.en.map((form) => form.replace(/ies$|y$/, '(y|ies)')).join('|')})s?\\b`, 'i');
      const holds = (key, plain, entry) => {
        if (!says.test(plain.replace(/\w+\.json|\{[^}]*\}/g, '')) || otherSense[term]?.test(key)) return;
        for (const said of wordings(entry)) {
          if (!row[code].some((form) => said.toLowerCase().includes(form.toLowerCase()))) wrong.push(`${term} (${row[code][0]}): ${key}: ${said}`);
        }
      };
      for (const [key, words] of Object.entries(english)) holds(key, words, catalogue[key]);
      for (const [key, entry] of Object.entries(core)) if (!isPlural(entry)) holds(key, key, entry);
    }
    assert.deepEqual(wrong, []);
  });
}

test('no word is left that nobody says', () => {
  const scripts = [...files('.js')].filter(([name]) => !isWords(name)).map(([, text]) => text);
  const pages = [...files('.html').values()];
  const said = new Set(pages.flatMap((text) => [...text.matchAll(/data-word(?:-name|-content)?="(\w+)"/g)].map(([, key]) => key)));
  const patterns = [];
  for (const text of scripts) {
    for (const [, key] of text.matchAll(/'(\w+)'/g)) said.add(key);
    // `scheme_${choice}` says every key that begins so.
    for (const [, key] of text.matchAll(/`((?:\w|\$\{[\w.]+\})+)`/g)) if (/[a-z]{3}/.test(key.replace(/\$\{[^}]*\}/g, '')) && key.includes('_')) patterns.push(new RegExp(`^${key.replace(/\$\{[^}]*\}/g, '\\w+')}$`));
  }
  const unsaid = Object.keys(english).filter((key) => !said.has(key) && !patterns.some((pattern) => pattern.test(key)));
  assert.deepEqual(unsaid, []);
});

test('no word of a page stands beside the catalogue', () => {
  const found = [];
  for (const [name, text] of files('.html')) {
    const body = text.replace(/<!--.*?-->/gs, '').replace(/<(script|style)\b.*?<\/\1>/gs, '');
    for (const [, tag, words] of body.matchAll(/(<[^<>]+>)([^<>]*\p{L}[^<>]*)/gu)) if (!tag.includes('data-word="')) found.push(`${name}: ${words.trim()}`);
    for (const [tag] of body.matchAll(/<[^<>]+\b(?:aria-label|title|alt|placeholder)="[^"]*\p{L}[^<>]*>/gu)) if (!tag.includes('data-word-name=')) found.push(`${name}: ${tag}`);
    for (const [, key, words] of text.matchAll(/data-word="(\w+)"[^>]*>([^<]*)/g)) if (words !== '') assert.equal(words, english[key], `${name}: ${key}`);
    for (const [, key, words] of text.matchAll(/data-word-content="(\w+)" content="([^"]*)"/g)) assert.equal(words, english[key], `${name}: ${key}`);
  }
  // The name of the program is the same in every language.
  assert.deepEqual(found, ['index.html: Crestrail']);
});

test('no word of a script stands beside the catalogue', () => {
  const found = [];
  for (const [name, text] of files('.js')) {
    if (/^words-|^languages\.js$/.test(name)) continue;
    for (const { words, before } of literals(text)) if (readsAsWords(words) && !forPrograms(before) && !allowed.has(words)) found.push(`${name}: ${words}`);
  }
  assert.deepEqual(found, []);
});

/** Texts that no reader of the page meets, or that no language changes. */
const allowed = new Set([
  // Said to whoever looks at the console of a browser.
  'Not kept for use without a network:',
  // A key, as browsers name it.
  'Escape',
  // What the worker for offline use is told.
  'take over',
  // Classes of an element, chosen beforehand.
  'order-amount figures',
  // A command for the maker's own machine.
  'cargo run -- publish --showroom showroom.json --shop shop.json --out chairs',
]);

/** Whether a literal has two words beside each other, or is one that begins a sentence. @param {string} words */
function readsAsWords(words) {
  const plain = words.replace(/\$\{[^}]*\}/g, ' ');
  if (/^\s*(:host|\(prefers-|color-mix\()/.test(plain)) return false;
  return /\p{L}{2,}[,:]? \p{Ll}{2,}/u.test(plain) || /^\p{Lu}\p{Ll}{2,}[.!…]?$/u.test(plain.trim());
}

/** Whether what stands before a literal says that it is for programs: a class, a selector, a key, an error that is thrown. @param {string} before */
function forPrograms(before) {
  return /(\bclass: |\bclass: [\w.]+ \? |\bclass: [\w.]+ \? '[^']*' : |Error\(|console\.\w+\(|querySelector(All)?\(|\bkey [!=]== |\bkey\b.*\bincludes\(|types\.includes\(|closest\(|headers\.get\(|CSS\.|Event\(|toggle\(|\bcase )$/.test(before) || /\bclass\b[^,;]*$/.test(before.slice(-60));
}

/** The strings and templates of a script, each with what stands before it on its line. @param {string} text */
function literals(text) {
  const found = [];
  let line = '';
  for (let at = 0; at < text.length; at++) {
    const rest = text.slice(at, at + 2);
    if (rest === '//') at = Math.max(at, text.indexOf('\n', at) - 1);
    else if (rest === '/*') at = text.indexOf('*/', at) + 1;
    else if (text[at] === '/' && /[(,=:!&|?{};[]\s*$|\breturn\s*$/.test(line)) at = endOf(text, at, '/');
    else if (`'"\``.includes(text[at])) {
      const end = endOf(text, at, text[at]);
      found.push({ words: text.slice(at + 1, end), before: line });
      line += text.slice(at, end + 1);
      at = end;
    } else line = text[at] === '\n' ? '' : line + text[at];
  }
  return found;
}

/** Where a literal that begins at a place ends. @param {string} text @param {number} from @param {string} mark */
function endOf(text, from, mark) {
  let inClass = false;
  for (let at = from + 1; at < text.length; at++) {
    if (text[at] === '\\') at++;
    else if (mark === '/' && text[at] === '[') inClass = true;
    else if (mark === '/' && text[at] === ']') inClass = false;
    else if (mark === '`' && text.startsWith('${', at)) at = closing(text, at + 2);
    else if (text[at] === mark && !inClass) return at;
  }
  return text.length;
}

/** The brace that closes a place in a template, templates within it skipped. @param {string} text @param {number} from */
function closing(text, from) {
  let depth = 1;
  for (let at = from; at < text.length; at++) {
    if (text[at] === '`' || text[at] === "'") at = endOf(text, at, text[at]);
    else if (text[at] === '{') depth++;
    else if (text[at] === '}' && --depth === 0) return at;
  }
  return text.length;
}

test('the scan of scripts sees words where there are some', () => {
  const script = "// no word here\nel('p', { class: 'plain words', text: 'Seen by all' }); /* nor here */ const a = /'x y'/; say(`${a}: two words`); f('Undo')";
  const seen = literals(script).filter(({ words, before }) => readsAsWords(words) && !forPrograms(before));
  assert.deepEqual(seen.map(({ words }) => words), ['Seen by all', '${a}: two words', 'Undo']);
});

test('every file of words is said by some page', () => {
  const scripts = files('.js');
  const speakers = scripts.get('words.js') + scripts.get('setup-told.js');
  for (const name of Object.keys(areas)) assert.ok(speakers.includes(`from './${name}'`), name);
});

test('setting up offers the languages that the core allows, and the page has words in each', () => {
  const tags = (text, from, to) => [...text.slice(text.indexOf(from), text.indexOf(to, text.indexOf(from))).matchAll(/['"]([a-z]{2}(?:-[A-Z]{2})?)['"]/g)].map(([, tag]) => tag);
  const offered = tags(files('.js').get('setup-fields.js'), 'export const showroomTags', '];\n');
  const allowed = tags(readFileSync(join(root, 'core/chair/src/showroom/read.rs'), 'utf8'), 'const LANGUAGES', '];');
  assert.ok(allowed.length > 30);
  assert.deepEqual(offered, allowed);
  assert.deepEqual([...new Set(allowed.map((tag) => tag.slice(0, 2)))].sort(), languages.map(({ code }) => code).sort());
});
