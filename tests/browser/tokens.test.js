// The page's look hangs on one file: style sheets take colours, sizes of type, weights, room and lines from tokens.css.
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, test } from 'node:test';

const folder = fileURLToPath(new URL('../../www/page/', import.meta.url));
const read = (name) => readFileSync(folder + name, 'utf8').replace(/\/\*[^]*?\*\//g, '');
/** Paper has sizes of its own, in millimetres and points. */
const onPaper = /print\.css$/;
const screens = readdirSync(folder).filter((name) => name.endsWith('.css') && name !== 'tokens.css' && !onPaper.test(name));

/** Each declaration of a style sheet for the screen, as `file: name: value`. */
const declarations = screens.flatMap((file) => [...read(file).matchAll(/(?:^|[;{])\s*([a-z-]+):\s*([^;{}]+);/gm)].map(([, name, value]) => ({ file, name, value, said: `${file}: ${name}: ${value}` })));

/** Declarations of a name whose value is not as it should be. */
function strays(names, allowed) {
  return declarations.filter(({ name, value }) => names.test(name) && !allowed(value)).map(({ said }) => said);
}

describe('style sheets', () => {
  test('say no colour of their own', () => {
    const coloured = declarations.filter(({ value }) => /#[0-9a-f]{3,8}\b|\b(rgb|hsl|lab|lch|oklab|oklch)a?\(/i.test(value));
    assert.deepEqual(coloured.map(({ said }) => said), []);
  });

  test('take type from the scale', () => {
    assert.deepEqual(strays(/^font-size$/, (value) => /^(var\(--text-\d\)|inherit|\d(\.\d+)?em)$/.test(value)), []);
    assert.deepEqual(strays(/^font-weight$/, (value) => /^(var\(--bold\)|400|inherit)$/.test(value)), []);
  });

  /** A hair of a pixel closes a seam between borders; `em` follows the type beside it; what is worked out names its tokens. */
  test('take room from its steps', () => {
    const step = /^(0|auto|-?1px|var\(--[\w-]+\)|env\([\w-]+\)|-?[\d.]+em)$/;
    const parts = (value) => value.match(/(?:[a-z-]+\((?:[^()]|\([^()]*\))*\)|[^\s])+/g) ?? [];
    const allowed = (value) => parts(value).every((part) => step.test(part) || /^(calc|min|max|clamp)\(.*var\(--/.test(part));
    assert.deepEqual(strays(/^(padding|margin|gap|row-gap|column-gap)(-[a-z-]+)?$/, allowed), []);
  });

  /** Triangles and double lines are made of thick borders; centring marks are as long as they are. */
  test('draw with the widths of lines that there are', () => {
    const allowed = (value) => !/\b\d+(\.\d+)?px\b/.test(value) || /transparent|double|^(0 14px|14px 0)$|^6px solid (var\(--tick\)|currentColor)$/.test(value);
    assert.deepEqual(strays(/^(border|outline)(-(top|bottom|left|right|width|block|inline)(-[a-z]+)*)?$/, allowed), []);
  });

  test('name no token that is not there', () => {
    const known = new Set([...readFileSync(`${folder}tokens.css`, 'utf8').matchAll(/(--[\w-]+):/g)].map(([, name]) => name));
    const own = new Set(screens.flatMap((file) => [...read(file).matchAll(/(--[\w-]+):/g)].map(([, name]) => name)));
    const scripts = readdirSync(folder).filter((name) => name.endsWith('.js')).map((name) => readFileSync(folder + name, 'utf8')).join('\n');
    // Scripts set some on single elements, a few of them by names that are put together.
    const isSet = (name) => scripts.includes(name) || (scripts.includes('`--${') && scripts.includes(`${name.slice(2).split('-')[0]}`));
    const unknown = declarations.flatMap(({ value, said }) => [...value.matchAll(/var\((--[\w-]+)\)/g)].filter(([, name]) => !known.has(name) && !own.has(name) && !isSet(name)).map(() => said));
    assert.deepEqual(unknown, []);
    assert.ok(declarations.length > 900, String(declarations.length));
  });
});
