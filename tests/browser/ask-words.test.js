// The words of a mail that asks for a quote, and how long the address that opens it may become.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { askWords, mailAddress } from '../../www/page/ask-words.js';

const overall = { width: 490.3, depth: 514.7, height: 888, seat_height: 450, mass_kg: 7, parts: 22 };
const link = `https://maker.example/chairs/#design/1;seat_height=471;told=from.EUR.91298;check=0123abcd`;
const asked = { offer: 'Bench & stool?', count: 1, customer: '', choices: [], overall, price: 'from €912.98', link };
const bodyOf = (address) => new URL(address).searchParams.get('body').split('\r\n');

test('the link and the price come before all that it says once more', () => {
  const { subject, lines } = askWords({ ...asked, customer: 'Ann', choices: ['Seat height: 471 mm'] });
  assert.equal(subject, 'Bench & stool?: please quote (1 chair)');
  assert.deepEqual(lines, ['Please quote for 1 × Bench & stool?.', 'Name: Ann', `The chair: ${link}`, 'Price seen: from €912.98', '490 wide, 515 deep, 888 high, seat at 450 mm', 'Seat height: 471 mm']);
  const address = mailAddress('a@b.example', { subject, lines });
  assert.ok(address.startsWith('mailto:a@b.example?subject=Bench%20%26%20stool%3F'));
  assert.deepEqual(bodyOf(address), lines);
});

test('no price is made up where none was seen', () => {
  assert.ok(!askWords({ ...asked, price: null }).lines.some((line) => line.includes('Price')));
});

test('what is too long for a mail program loses its last lines, and never the link', () => {
  const choices = Array.from({ length: 80 }, (_, i) => `Größe ${i}: “ja” ±${i} mm`);
  const words = askWords({ ...asked, choices });
  const address = mailAddress('a@b.example', words);
  assert.ok(address.length <= 1900 && address.length > 1800, String(address.length));
  const body = bodyOf(address);
  assert.ok(body.length < words.lines.length && body.includes(`The chair: ${link}`));
  assert.deepEqual(body, words.lines.slice(0, body.length), 'whole lines');
});
