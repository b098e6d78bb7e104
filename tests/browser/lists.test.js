// Lists of the page shown with rows of their own, for what not every chair has.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { browse, open } from './harness.js';
import { withModules } from './site.js';

let browser;
let site;
before(async () => {
  [browser, site] = await Promise.all([browse(), withModules()]);
});
after(async () => {
  await browser.close();
  await site.stop();
});

/** Shows a part of a report in a list of the page, and gives back the words that can be read. */
async function shown(module, name, report) {
  const { page, context, faults } = await open(browser, `${site.address}/`);
  const words = await page.evaluate(
    async ([from, what, rows]) => {
      const list = new (await import(new URL(`modules/${from}`, location.href).href))[what]();
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

test('a joint without more to say shows its figures alone', async () => {
  const words = await shown('./joints.js', 'Joints', { joints: [joint] });
  assert.match(words, /Tenon 30 × 44 × 9 mm/);
  for (const absent of ['Kind of joint', 'Where it meets', 'nearer the shoulder', 'Piece', 'wedge']) assert.ok(!words.includes(absent), absent);
});

test('a joint says which kind it is and why, what else was weighed at a corner, and how far a peg draws', async () => {
  const words = await shown('./joints.js', 'Joints', {
    joints: [
      {
        ...joint,
        kind: 'bare_faced',
        kind_name: 'bare-faced tenon',
        why: 'The rail is too thin for two shoulders.',
        given_way: 'Twin tenons were wished; the rail is too low for them.',
        pegs: [{ ...joint.pegs[0], draw: 1 }],
        tongues: [{ from_bottom: 0, width: 44, from: 0, to: 20 }, { from_bottom: 22, width: 22, from: 20, to: 30 }],
        corners: [
          {
            way: 'halved',
            name: 'halved past each other',
            with: 'front rail',
            glue_mm2: 4100,
            why: 'It leaves the most glue area.',
            others: [
              { way: 'mitred', name: 'mitred', glue_mm2: 3650 },
              { way: 'staggered', name: 'staggered in height', why: 'The rail is too low.' },
            ],
          },
        ],
      },
    ],
  });
  for (const said of [
    /Bare-faced tenon 30 × 44 × 9 mm/,
    /Bare-faced tenon: The rail is too thin for two shoulders\./,
    /Twin tenons were wished; the rail is too low for them\./,
    /Where it meets the tenon of the front rail/,
    /Halved past each other: 41 cm² to glue\. It leaves the most glue area\./,
    /Not taken, mitred: 36\.5 cm² to glue/,
    /Not taken, staggered in height: The rail is too low\./,
    /nearer the shoulder by\s+1\smm/,
    /Piece 2 of the tenon\s+Width\s+22\smm\s+Above the tenon’s lower edge\s+22\smm\s+From the shoulder\s+20 – 30\smm/,
  ]) {
    assert.match(words, said);
  }
});

test('wedges and dowels of a joint are counted and measured', async () => {
  const wedged = { ...joint, pegs: [], inserts: { what: 'wedge', quantity: 2, length: 20, width: 9, thickness: 3 }, wedges: { count: 2, kerf: 22, thickness: 3, from_edge: 6, flare: 1.5 } };
  const words = await shown('./joints.js', 'Joints', { joints: [wedged] });
  assert.match(words, /How many in one joint\s+2\s+Length × width × thickness\s+20 × 9 × 3\smm\s+Saw cut for a wedge, depth\s+22\smm\s+Mortise longer at each end, outside\s+1\.5\smm\s+Saw cut from the tenon’s edge\s+6\smm/);
  const dowels = { ...joint, pegs: [], inserts: { what: 'dowel', quantity: 2, length: 60, width: 8, thickness: 8, into_guest: 31 } };
  assert.match(await shown('./joints.js', 'Joints', { joints: [dowels] }), /Depth of its hole in the tenon’s part\s+31\smm/);
});

test('the steps of assembly stand in their order with the parts they are about', async () => {
  const steps = [
    { number: 1, title: 'Two side frames, left and right', say: 'Push the side rail (D) into the back leg (B) from the front.', letters: ['B', 'D'] },
    { number: 2, title: 'Slats of the seat', say: 'Bring them into place from above.', letters: [] },
  ];
  const words = await shown('./assembly.js', 'Assembly', { assembly: steps });
  assert.match(words, /Two side frames, left and right\s*B\s*D\s*Push the side rail \(D\) into the back leg \(B\) from the front\.\s*Slats of the seat\s*Bring them/);
});

test('there is a tab for the assembly only where there are steps', async () => {
  const { page, context, faults } = await open(browser, `${site.address}/`);
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
