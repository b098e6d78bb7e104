// The page's own words, which stand in several files.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { customerWords } from '../../www/page/words-customers.js';
import { dimensionWords } from '../../www/page/words-dimensions.js';
import { habitWords } from '../../www/page/words-habits.js';
import { listWords } from '../../www/page/words-lists.js';
import { pageWords } from '../../www/page/words-page.js';
import { paperWords } from '../../www/page/words-papers.js';

const areas = { customerWords, dimensionWords, habitWords, listWords, pageWords, paperWords };

test('no word is said twice under one key, where one would hide the other', () => {
  const keys = Object.values(areas).flatMap(Object.keys);
  assert.deepEqual(keys.filter((key, i) => keys.indexOf(key) !== i), []);
});

test('whatever has a form for one has a form for many, with the same values', () => {
  const values = (text) => [...new Set(text.match(/\{\w+\}/g) ?? [])].sort();
  for (const [key, words] of Object.values(areas).flatMap(Object.entries)) {
    const forms = words.split('|');
    assert.ok(forms.length <= 2, key);
    const [one, many] = forms.map((form) => values(form).filter((value) => value !== '{count}'));
    if (many) assert.deepEqual(one, many, key);
  }
});
