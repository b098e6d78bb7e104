// Figures, money, dates and plurals after the custom of each language's regions.
//
// The expected texts are those of the Unicode CLDR, read with Babel 2.19 (its CLDR 49) and not with the engine under test, for regions in
// which CLDR 48 and 49 agree. Plural samples are those of CLDR's plural rules for whole numbers.
import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { fixed, money, number, parseTyped } from '../../www/page/format.js';
import { languageOf, tagFor } from '../../www/page/languages.js';
import { figuresTag, listed, say, speech, use, within } from '../../www/page/words.js';
import { catalogueOf } from './catalogue.js';

/** Speaks as a page of this tag does. */
function speakAs(tag) {
  const code = languageOf(tag);
  use(code, code === 'en' ? {} : catalogueOf(code));
  speech.language = figuresTag(tag);
}
afterEach(() => speakAs('en'));

const euros = {
  fr: '1\u202f234,50\u00a0€',
  de: '1.234,50\u00a0€',
  'de-AT': '€\u00a01.234,50',
  'de-CH': 'EUR\u00a01’234.50',
  'es-MX': 'EUR\u00a01,234.50',
  sw: '€\u00a01,234.50',
  'sw-CD': '€\u00a01.234,50',
  ar: '\u200f1,234.50\u00a0€',
  'ar-MA': '\u200f1.234,50\u00a0€',
  'en-GB': '€1,234.50',
};

test('money stands as the region writes it', () => {
  for (const [tag, wanted] of Object.entries(euros)) {
    speakAs(tag);
    // Two editions of CLDR write the apostrophe of Switzerland and the space of Mexico differently.
    const plain = (text) => text.replace(/['’]/g, '’').replace(/^EUR\s?/, 'EUR\u00a0');
    assert.equal(plain(money(123450, { currency: 'EUR', minor_digits: 2 })), wanted, tag);
  }
  speakAs('ar-EG');
  assert.match(money(123450, { currency: 'EGP', minor_digits: 2 }), /1,234\.50/, 'the digits of the rule');
});

test('dates stand as the region writes them', () => {
  const day = new Date('2026-11-29T12:00:00Z');
  for (const [tag, wanted] of Object.entries({ fr: '29 novembre 2026', 'de-AT': '29. November 2026', es: '29 de noviembre de 2026', sw: '29 Novemba 2026', ar: '29 نوفمبر 2026', 'ar-MA': '29 نونبر 2026', 'en-GB': '29 November 2026' })) {
    assert.equal(new Intl.DateTimeFormat(figuresTag(tag), { dateStyle: 'long', timeZone: 'UTC' }).format(day), wanted, tag);
  }
});

test('a figure has the decimal sign of its region, a true minus and no groups, and is read back as it was typed', () => {
  for (const [tag, wanted] of Object.entries({ fr: '−1234,5', de: '−1234,5', 'es-MX': '−1234.5', sw: '−1234.5', 'sw-CD': '−1234,5', ar: '\u200e−1234.5', 'ar-MA': '\u200e−1234,5', en: '−1234.5' })) {
    speakAs(tag);
    assert.equal(number(-1234.5), wanted, tag);
    assert.equal(parseTyped(fixed(-1234.5, 1), 'mm'), -1234.5, tag);
    assert.equal(parseTyped(`${number(450)} ${say('unit_mm')}`, 'mm'), 450, tag);
  }
  assert.equal(parseTyped('٤٦٠٫٥', 'mm'), 460.5);
  assert.equal(parseTyped('۴۶۰', 'mm'), 460);
});

test('each count takes the form of its plural category', () => {
  const said = (tag, counts) => (speakAs(tag), counts.map((count) => say('chairs_of', { count }).replace(/[\u2068\u2069]/g, '')));
  assert.deepEqual(said('en', [0, 1, 2]), ['0 chairs', '1 chair', '2 chairs']);
  assert.deepEqual(said('fr', [0, 1, 2, 1_000_000]), ['0 chaise', '1 chaise', '2 chaises', '1000000 de chaises']);
  assert.deepEqual(said('es', [0, 1, 2, 1_000_000]), ['0 sillas', '1 silla', '2 sillas', '1000000 de sillas']);
  assert.deepEqual(said('de', [0, 1, 2]), ['0 Stühle', '1 Stuhl', '2 Stühle']);
  assert.deepEqual(said('sw', [0, 1, 2]), ['viti 0', 'kiti 1', 'viti 2']);
  assert.deepEqual(said('ar', [0, 1, 2, 3, 10, 11, 99, 100, 102, 103]), ['لا كراسي', 'كرسي واحد', 'كرسيان', '3 كراسي', '10 كراسي', '11 كرسيًا', '99 كرسيًا', '100 كرسي', '102 كرسي', '103 كراسي']);
});

test('values stand apart from text that runs from right to left, but for what programs read', () => {
  speakAs('ar');
  assert.equal(say('clash_set', { label: 'Seat', value: '450 mm' }), 'اجعل \u2068Seat\u2069 على \u2068450 mm\u2069');
  assert.equal(say('ask_link', { link: 'https://maker.example/#design/1' }), 'الكرسي: https://maker.example/#design/1');
  assert.equal(listed(['a', 'b']), '\u2068a\u2069، \u2068b\u2069');
  speakAs('de');
  assert.equal(say('clash_set', { label: 'Sitz', value: '450 mm' }), 'Sitz auf 450 mm stellen');
});

test('a label in the middle of a sentence is small, but not in German', () => {
  assert.equal(within('Side chair'), 'side chair');
  speakAs('de');
  assert.equal(within('Stuhl'), 'Stuhl');
});

test('the language chosen comes first, then those of the browser, each with the region that the browser asks for', () => {
  assert.equal(tagFor(null, ['pt-BR', 'de-CH', 'fr']), 'de-CH');
  assert.equal(tagFor('fr', ['de-CH', 'fr-CA']), 'fr-CA');
  assert.equal(tagFor('sw', ['de-CH']), 'sw');
  assert.equal(tagFor('tlh', ['en-GB']), 'en-GB');
  assert.equal(tagFor(null, ['pt']), 'en');
});
