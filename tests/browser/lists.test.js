// Lists of the page shown with rows of their own, for what not every chair has.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { browse, open, serve } from './harness.js';

let browser;
let server;
before(async () => {
  [browser, server] = await Promise.all([browse(), serve()]);
});
after(async () => {
  await browser.close();
  await server.stop();
});

/** Shows a part of a report in a list of the page, and gives back the words that can be read. */
async function shown(module, name, report) {
  const { page, context, faults } = await open(browser, server.address);
  const words = await page.evaluate(
    async ([from, what, rows]) => {
      const list = new (await import(new URL(from, location.href).href))[what]();
      document.querySelector('main').append(list.container);
      list.update(rows);
      for (const details of list.container.querySelectorAll('details')) {
        details.open = true;
        await new Promise((done) => details.addEventListener('toggle', done, { once: true }));
      }
      return list.container.innerText;
    },
    [module, name, report],
  );
  assert.deepEqual(faults, []);
  await context.close();
  return words;
}

const joint = {
  name: 'side rail in back leg', host: 'back leg', guest: 'side rail', letter_host: 'B', letter_guest: 'D', quantity: 2,
  tenon: { length: 30, width: 44, thickness: 9 }, shoulders: { top: 10, bottom: 10, front: 8, back: 7 },
  mortise: { depth: 31.5, width: 44, thickness: 9, glue_gap: 1.5, wall: 12, from_end: 200 },
  pegs: [{ size: 6, shape: 'round', from_face: 12, from_middle: 0, length: 30 }],
  angles: { shoulder_across_width: 2.5 },
  rule: [{ say: 'A third of the thickness.', source: 'common practice, no source' }],
};

test('a joint says how it is made and why, what else was weighed at a corner, and how far a peg draws', async () => {
  const plain = await shown('./joints.js', 'Joints', { joints: [joint] });
  assert.match(plain, /Tenon 30 × 44 × 9 mm/);
  for (const absent of ['How it is made', 'Where it meets another tenon', 'nearer the shoulder']) assert.ok(!plain.includes(absent), absent);
  const words = await shown('./joints.js', 'Joints', {
    joints: [
      {
        ...joint,
        kind: 'bare_faced',
        why: 'The rail is too thin for two shoulders.',
        pegs: [{ ...joint.pegs[0], draw: 1 }],
        corner: {
          way: 'halved',
          why: 'It leaves the most glue area.',
          others: [{ way: 'halved', glue_mm2: 4100 }, { way: 'mitred', glue_mm2: 3650 }, { way: 'staggered', why: 'The rail is too low.' }],
        },
      },
    ],
  });
  assert.match(words, /bare-faced tenon 30 × 44 × 9 mm/i);
  assert.match(words, /The rail is too thin for two shoulders\./);
  assert.match(words, /Taken: halved past each other\. It leaves the most glue area\./);
  assert.match(words, /mitred: 36\.5 cm² to glue/i);
  assert.match(words, /staggered in height: The rail is too low\./i);
  assert.match(words, /nearer the shoulder by\s+1\smm/i);
});

test('the steps of assembly stand in their order with the parts they are about', async () => {
  const steps = [{ say: 'Glue the back slats into a back leg.', parts: ['B', 'H'], why: 'They slide in straight.' }, { say: 'Set the seat on.' }];
  const words = await shown('./assembly.js', 'Assembly', { assembly: steps });
  assert.match(words, /Glue the back slats into a back leg\.\s*B\s*H\s*They slide in straight\.\s*Set the seat on\./);
});

test('there is a tab for the assembly only where there are steps', async () => {
  const { page, context, faults } = await open(browser, server.address);
  const { text, tab } = await page.evaluate(() => ({ text: document.querySelector('#list-assembly li')?.textContent, tab: !document.querySelector('#tab-assembly').hidden }));
  if (tab) {
    await page.getByRole('tab', { name: 'How it goes together' }).click();
    assert.ok((await page.locator('#list-assembly li').count()) > 2);
  } else {
    assert.equal(text, undefined);
    assert.equal(await page.getByRole('tab', { name: 'How it goes together' }).count(), 0);
  }
  assert.deepEqual(faults, []);
  await context.close();
});
