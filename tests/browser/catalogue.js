// The page's words: English by area, and the other languages from their files.
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '../..');
export const folder = join(root, 'www/page');
/** Whether a script of the page holds English words and nothing else. */
export const isWords = (name) => /^words-(?!source)[\w-]+\.js$/.test(name);
/** The English words of each file of words. */
export const areas = Object.fromEntries(
  await Promise.all(
    readdirSync(folder)
      .filter(isWords)
      .map(async (name) => [name, Object.assign({}, ...Object.values(await import(join(folder, name))))]),
  ),
);
export const english = Object.assign({}, ...Object.values(areas));

/** The words of another language, by key. */
export function catalogueOf(code) {
  return JSON.parse(readFileSync(join(folder, `words/${code}.json`), 'utf8'));
}

/** The core's texts in another language: of each English pattern its own. */
export function coreOf(code) {
  return JSON.parse(readFileSync(join(root, `core/phrases/data/${code}.json`), 'utf8')).phrases;
}

/** The wordings of an entry: one, or one for each plural category. */
export function wordings(entry) {
  return typeof entry === 'string' ? [entry] : Object.values(entry);
}

/** The page's files with an ending, by name. */
export function files(ending) {
  const names = readdirSync(folder).filter((name) => name.endsWith(ending));
  return new Map(names.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));
}

/** The rows of the glossary: a language's code to the forms of the term; `held` where a test holds catalogues to it. */
export function glossary() {
  const codes = ['en', 'what', 'fr', 'de', 'es', 'sw', 'ar', 'held'];
  const lines = readFileSync(join(folder, 'words/GLOSSARY.md'), 'utf8').split('\n').filter((line) => line.startsWith('| '));
  return lines.slice(1).map((line) => {
    const cells = line.split('|').slice(1, -1).map((cell) => cell.trim());
    return Object.fromEntries(codes.map((code, i) => [code, code === 'what' ? cells[i] : (cells[i] ?? '').split(',').map((form) => form.trim()).filter(Boolean)]));
  });
}
