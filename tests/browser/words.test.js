// The page's own words, which stand in several files.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { areas } from './catalogue.js';

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
