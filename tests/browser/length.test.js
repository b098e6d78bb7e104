// Lengths as the page writes and reads them.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { describe, test } from 'node:test';
import { figureOf, inches, lengths, readLength } from '../../www/page/length.js';
import { inUnit } from '../../www/page/told-lengths.js';
import { use } from '../../www/page/words.js';
import { catalogueOf } from './catalogue.js';

const table = await readFile(new URL('../data/lengths.csv', import.meta.url), 'utf8');
const rows = table.trim().split('\n').slice(1).map((row) => row.split(','));
const write = (value, digits) => String(Number(value.toFixed(digits)));

describe('a length', () => {
  test('is written as the core writes it on paper', () => {
    for (const [mm, unit, written] of rows) assert.equal(figureOf(Number(mm), write, 1, unit === 'in16' ? 'in' : unit), written, `${mm} mm in ${unit}`);
    assert.ok(rows.length > 100);
  });

  test('is read in any unit, with its name or the one in use', () => {
    const read = {
      450: 450, '450 mm': 450, '450mm': 450, '46 cm': 460, '46,5 cm': 465, '0.46 m': 460, '18 in': 457.2, '18 1/4 in': 463.55, '18-1/4"': 463.55,
      '18¼″': 463.55, '1/2 in': 12.7, "1' 6\"": 457.2, '1 ft 6 1/2 in': 469.9, '1 ft': 304.8, '  18 1/4  inches ': 463.55, '≈ 17 11/16 in': 449.2625, '-3': -3, '.5 in': 12.7, "6''": 152.4, "1' 6 1/2''": 469.9,
    };
    for (const [typed, mm] of Object.entries(read)) assert.equal(readLength(typed, 'mm'), mm, typed);
    assert.equal(readLength('18 1/4', 'in'), 463.55);
    assert.equal(readLength('46', 'cm'), 460);
    assert.equal(readLength('450 mm', 'in'), 450);
  });

  test('is not read out of what is none', () => {
    for (const typed of ['', 'tall', '18 1/0 in', '1/', '/2', '12 furlongs', '4 5', '1e3', '0x10', '--3', 'NaN', '18 1/4 1/8 in', "1' 1' 6\"", "1' 2'", "1' 2 ft", '9'.repeat(400), "1'".repeat(40)]) assert.equal(readLength(typed, 'mm'), undefined, typed);
  });

  test('is a number or none, and soon, whatever is typed', () => {
    // SplitMix32, so that a text that fails comes again.
    let seed = 7;
    const below = (/** @type {number} */ count) => {
      seed = (seed + 0x9e3779b9) | 0;
      let z = Math.imul(seed ^ (seed >>> 16), 0x21f0aaad);
      z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
      return ((z ^ (z >>> 15)) >>> 0) % count;
    };
    const parts = ['1', '18', '0', '9999999999999999', '/', ' ', "'", '"', '″', '′', '’', 'ft', 'in', 'mm', 'cm', 'm', '.', ',', '-', '+', '½', '⁄', '≈', '\u2212', '\u00a0', 'e3', 'x', '\n', '\u{1f600}', '\ud800'];
    let taken = 0;
    for (let i = 0; i < 5_000; i += 1) {
      const typed = Array.from({ length: 1 + below(8) }, () => parts[below(parts.length)]).join('');
      for (const unit of ['mm', 'cm', 'in']) {
        const read = readLength(typed, unit);
        assert.ok(read === undefined || Number.isFinite(read), JSON.stringify(typed));
        if (read !== undefined) taken += 1;
      }
    }
    assert.ok(taken > 800, `${taken}`);
    const began = performance.now();
    for (const part of parts) readLength(part.repeat(100_000), 'in');
    assert.ok(performance.now() - began < 1000);
  });

  test('comes back from inches within what a sixteenth leaves over', () => {
    for (let mm = 3; mm < 1200; mm += 0.7) {
      const { figure, left } = inches(mm);
      const back = readLength(figure, 'in');
      assert.ok(Math.abs(back + left * 25.4 - mm) < 0.013, `${mm}: ${figure} ${left}`);
      assert.ok(Math.abs(left) <= 1 / 32 + 1e-9);
    }
  });

  /** Sentences as the core writes them, with the sign for decimals and the word for mm of each language. By hand: 12 mm are 0.472 in, 30/64 are 0.469; 440 mm are 17.32 in, 5/16 are 0.313. */
  test('within a sentence of the core follows the unit, and nothing else does', () => {
    const told = {
      en: ['12 mm of the tenon stay; 0.5 mm is enough.', '15/32 in of the tenon stay; 0.02 in is enough.', '1.2 cm of the tenon stay; 0.05 cm is enough.'],
      de: ['Gewünscht: 400 bis 440,5 mm.', 'Gewünscht: 15 3/4 bis 17 5/16 Zoll.', 'Gewünscht: 40 bis 44.05 cm.'],
      sw: ['Kina mm 12 ndani.', 'Kina inchi 15/32 ndani.', 'Kina sm 1.2 ndani.'],
      ar: ['يبقى \u206812\u2069 مم من اللسان.', 'يبقى \u206815/32\u2069 بوصة من اللسان.', 'يبقى \u20681.2\u2069 سم من اللسان.'],
    };
    const plain = ['2 boards of 12 N/mm² and 3 mm² at 38 Nm', 'Boards for one chair: 1 of 2400 × 160 mm'];
    try {
      for (const [code, [mm, inch, cm]] of Object.entries(told)) {
        use(code, code === 'en' ? {} : catalogueOf(code));
        for (const [unit, wanted] of Object.entries({ mm, in: inch, cm })) {
          lengths.choose(unit);
          assert.equal(inUnit(mm), wanted, `${code} ${unit}`);
        }
      }
      use('en', {});
      lengths.choose('in');
      assert.deepEqual(plain.map(inUnit), [plain[0], 'Boards for one chair: 1 of 94 1/2 × 6 5/16 in']);
    } finally {
      use('en', {});
      lengths.choose('mm');
    }
  });
});
