// The sizes on the picture: dragged, stepped, typed, at a desk and on a phone.
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { Desk, atDesk } from './desk.js';
import { lacking } from './engines.js';
import { open, ready, sizes, together } from './harness.js';

const here = together();
const at = (viewport, run) => atDesk(here, viewport, run);
const NARROW = { width: 360, height: 740 };

/** A grip on the picture. */
const grip = (page, label) => page.getByRole('slider', { name: `${label}, on the picture`, exact: true });
const note = (page) => page.locator('.dimension-note');
const value = async (locator) => Number(await locator.getAttribute('aria-valuenow'));

/** The middle of an element. */
async function middle(locator) {
  const { x, y, width, height } = await locator.boundingBox();
  return { x: x + width / 2, y: y + height / 2 };
}

/** Waits until what is shown is that of the knobs, and stands still. */
async function settled(page) {
  const busy = () => document.querySelector('#summary, #label')?.getAttribute('aria-busy') !== 'false';
  const drawn = () => document.querySelector('.dimensions').outerHTML;
  for (let [last, same] = ['', 0]; same < 3; ) {
    const now = (await page.evaluate(busy)) ? '' : await page.evaluate(drawn);
    same = now !== '' && now === last ? same + 1 : 0;
    last = now;
    await page.waitForTimeout(50);
  }
}

/** Waits until a picture that was held has gone back to its place. */
async function released(page) {
  await page.locator('.dimensions:not([data-held])').waitFor();
  await settled(page);
}

async function look(page, name) {
  await page.getByRole('button', { name: { corner: 'Look from the corner, three-quarter view', front: 'Look at the front', side: 'Look at the side' }[name] }).click();
  await settled(page);
}

/** Which way out of its line a grip points, as a unit vector: from the drawn line itself. */
function direction(locator) {
  return locator.evaluate((grip) => {
    const place = [...document.querySelectorAll('.dimensions > [data-knob]')].indexOf(grip.parentElement);
    const line = document.querySelectorAll('.dimension-drawing > g')[place].querySelector('.dimension-line');
    const numbers = line.getAttribute('d').match(/-?[\d.]+/g).map(Number);
    const spots = Array.from({ length: numbers.length / 2 }, (_, i) => ({ x: numbers[2 * i], y: numbers[2 * i + 1] }));
    const box = grip.getBoundingClientRect();
    const frame = grip.closest('.dimensions').getBoundingClientRect();
    const far = ({ x, y }) => Math.hypot(x - (box.x + box.width / 2 - frame.x), y - (box.y + box.height / 2 - frame.y));
    const [from, to] = far(spots[0]) < far(spots.at(-1)) ? [spots[1], spots[0]] : [spots.at(-2), spots.at(-1)];
    const long = Math.hypot(to.x - from.x, to.y - from.y);
    return { x: (to.x - from.x) / long, y: (to.y - from.y) / long };
  });
}

describe('a size that is dragged', () => {
  for (const [view, labels] of Object.entries({
    corner: ['Width in front', 'Depth over the legs', 'Seat height'],
    front: ['Width in front', 'Seat height', 'Height of the back'],
    side: ['Depth over the legs', 'Lean of the back', 'Kick of the back leg'],
  })) {
    test(`follows the pointer within 2 px, seen from the ${view}`, () =>
      at(sizes.desk, async (desk, page) => {
        await look(page, view);
        for (const label of labels) {
          const line = grip(page, label);
          const way = await direction(line);
          const [from, was] = [await middle(line), await value(line)];
          await page.mouse.move(from.x + 3, from.y - 2);
          await page.mouse.down();
          for (const by of [6, 12, 17]) {
            const to = { x: from.x + way.x * by, y: from.y + way.y * by };
            await page.mouse.move(to.x + 3, to.y - 2, { steps: 4 });
            await settled(page);
            const now = await middle(line);
            const off = Math.abs((now.x - to.x) * way.x + (now.y - to.y) * way.y);
            assert.ok(off <= 2, `${label}: ${off.toFixed(2)} px behind the pointer after ${by} px`);
          }
          assert.ok((await value(line)) > was, label);
          await page.mouse.up();
          await released(page);
          const knob = await line.evaluate((e) => e.parentElement.dataset.knob);
          assert.equal(Number(await page.locator(`.knob[data-knob="${knob}"] .ruler-input`).inputValue()), await value(line), 'the rule beside it shows the same');
        }
      }));
  }

  test('stops at its limits and says so', () =>
    at(sizes.desk, async (desk, page) => {
      const line = grip(page, 'Seat height');
      const from = await middle(line);
      await page.mouse.move(from.x, from.y);
      await page.mouse.down();
      await page.mouse.move(from.x, from.y - 400, { steps: 8 });
      assert.equal(await value(line), 520);
      assert.equal(await note(page).innerText(), 'Seat height: 520 mm is the most.');
      await page.mouse.move(from.x, from.y + 400, { steps: 8 });
      assert.equal(await value(line), 380);
      assert.equal(await note(page).innerText(), 'Seat height: 380 mm is the least.');
      await page.mouse.up();
    }));

  test('can be taken anywhere along its line', () =>
    at(sizes.desk, async (desk, page) => {
      await look(page, 'front');
      const line = grip(page, 'Seat height');
      const [from, was] = [await middle(line), await value(line)];
      await page.mouse.move(from.x, from.y + 40);
      await page.mouse.down();
      await page.mouse.move(from.x, from.y + 20, { steps: 5 });
      await settled(page);
      assert.ok((await value(line)) > was);
      await page.mouse.up();
    }));
});

describe('a size on the picture', () => {
  test('is a slider with name, limits and words', () =>
    at(sizes.desk, async (desk, page) => {
      const line = grip(page, 'Seat height');
      const traits = await line.evaluate((e) => Object.fromEntries(['aria-valuemin', 'aria-valuemax', 'aria-valuenow', 'aria-valuetext', 'aria-orientation', 'tabindex'].map((name) => [name, e.getAttribute(name)])));
      assert.deepEqual(traits, { 'aria-valuemin': '380', 'aria-valuemax': '520', 'aria-valuenow': '450', 'aria-valuetext': '450 millimetres', 'aria-orientation': 'vertical', tabindex: '0' });
      assert.match(await line.evaluate((e) => document.getElementById(e.getAttribute('aria-describedby')).textContent), /Arrow keys/);
      const group = page.getByRole('group', { name: 'Sizes on the picture' });
      assert.ok((await group.getByRole('slider').count()) >= 3);
    }));

  test('is changed by keys', () =>
    at(sizes.desk, async (desk, page) => {
      const line = grip(page, 'Seat height');
      await line.focus();
      const pressed = async (key) => (await page.keyboard.press(key), value(line));
      assert.equal(await pressed('ArrowUp'), 451);
      assert.equal(await pressed('ArrowRight'), 452);
      assert.equal(await pressed('ArrowDown'), 451);
      assert.equal(await pressed('PageUp'), 461);
      assert.equal(await pressed('PageDown'), 451);
      assert.equal(await pressed('Home'), 380);
      assert.match(await note(page).innerText(), /380 mm is the least/);
      assert.equal(await pressed('End'), 520);
      await settled(page);
      assert.ok(await line.evaluate((e) => e === document.activeElement), 'it keeps the focus');
      assert.equal(await desk.field('Seat height').inputValue(), '520');
      const outline = await line.evaluate((e) => getComputedStyle(e).outlineStyle);
      assert.equal(outline, 'solid', 'the focus is seen');
    }));

  test('is typed in any unit, and what is no size is refused in words', () =>
    at(sizes.desk, async (desk, page) => {
      const line = grip(page, 'Seat height');
      const typed = page.getByRole('textbox', { name: 'Seat height, new value' });
      const type = async (text) => {
        await page.getByRole('button', { name: /^Seat height: .*Type another$/ }).click();
        await typed.fill(text);
        await typed.press('Enter');
      };
      await type('46 cm');
      assert.equal(await value(line), 460);
      await type('18 in');
      assert.equal(await value(line), 457.2);
      await desk.link('seat_height=457.2');
      await type('17 3/4 in');
      assert.equal(await value(line), 450.85);
      await line.focus();
      await page.keyboard.press('4');
      assert.equal(await typed.inputValue(), '4');
      await typed.fill('470');
      await typed.press('Enter');
      assert.equal(await value(line), 470);
      assert.ok(await line.evaluate((e) => e === document.activeElement), 'the focus is back');
      await page.keyboard.press('Enter');
      for (const [text, words] of [['tall', /Seat height needs a number in mm/], ['2 m', /Seat height is 2000 mm; it must be from 380 mm to 520 mm/]]) {
        await typed.fill(text);
        await typed.press('Enter');
        assert.equal(await typed.getAttribute('aria-invalid'), 'true');
        assert.match(await note(page).innerText(), words);
      }
      await typed.press('Escape');
      assert.equal(await typed.count(), 0);
      assert.equal(await value(line), 470);
    }));

  test('shows how far it holds', () =>
    at(sizes.desk, async (desk, page) => {
      const band = page.locator('.dimension-drawing g', { has: page.locator('.dimension-band[d^="M"]') }).first();
      await band.waitFor({ state: 'attached', timeout: 20_000 });
      await page.waitForFunction(() => /Holds from|Nothing fails from/.test(document.querySelector('[data-knob="seat_height"] .dimension-grip')?.getAttribute('aria-description') ?? ''));
      // The band ends where the words beside the rule say that it holds, measured by the scale of the line itself.
      const words = await grip(page, 'Seat height').getAttribute('aria-description');
      const [low, high] = /from (\d+) mm to (\d+) mm/.exec(words).slice(1).map(Number);
      const drawn = await page.evaluate(() => {
        const lines = [...document.querySelectorAll('.dimension-drawing > g')];
        const at = [...document.querySelectorAll('.dimensions > .dimension')].findIndex((e) => e.dataset.knob === 'seat_height');
        const [line, band] = ['.dimension-line', '.dimension-band'].map((name) => lines[at].querySelector(name).getTotalLength());
        return { line, band };
      });
      assert.ok(Math.abs(drawn.band / drawn.line - (high - low) / 450) < 0.01, JSON.stringify({ drawn, low, high }));
    }));

  test('can be put away', () =>
    at(sizes.desk, async (desk, page) => {
      await page.getByRole('checkbox', { name: 'Show the sizes on the picture' }).uncheck();
      await page.waitForFunction(() => document.querySelectorAll('.dimension').length === 0);
      await page.getByRole('checkbox', { name: 'Show the sizes on the picture' }).check();
      await grip(page, 'Seat height').waitFor();
    }));

  test('a number of slats is stepped', () =>
    at(sizes.desk, async (desk, page) => {
      await look(page, 'front');
      const count = page.getByRole('spinbutton', { name: 'Slats in the back, on the picture' });
      await page.getByRole('button', { name: 'More, on the picture: Slats in the back' }).click();
      assert.equal(await value(count), 4);
      await count.focus();
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('ArrowDown');
      assert.equal(await value(count), 2);
      await desk.link('back_slats=2');
      assert.ok(await page.getByRole('button', { name: 'Fewer, on the picture: Slats in the back' }).isDisabled());
    }));
});

describe('on a phone', () => {
  const touching = async (run, viewport = NARROW) => {
    const { page, context, faults } = await open(here.browser, here.server.address, { viewport, ...(lacking('mobile') ? {} : { hasTouch: true, isMobile: true }) });
    const touch = lacking('cdp') ? undefined : await context.newCDPSession(page);
    const points = (...spots) => spots.map(({ x, y }, id) => ({ x, y, id }));
    await run(page, {
      send: (type, ...spots) => touch.send('Input.dispatchTouchEvent', { type, touchPoints: points(...spots) }),
    });
    assert.deepEqual(faults, []);
    await context.close();
  };

  test('a finger drags a size, and the page stays', { skip: lacking('cdp') }, () =>
    touching(async (page, { send }) => {
      const line = grip(page, 'Seat height');
      const { width, height } = await line.boundingBox();
      assert.ok(width >= 24 && height >= 24, `${width} × ${height}`);
      await settled(page);
      const from = await middle(line);
      const was = await value(line);
      await send('touchStart', from);
      for (let by = 2; by <= 10; by += 2) await send('touchMove', { x: from.x, y: from.y - by });
      await settled(page);
      const now = await middle(line);
      assert.ok(Math.abs(from.y - 10 - now.y) <= 2, `${from.y - 10} ${now.y}`);
      await send('touchEnd');
      assert.ok((await value(line)) > was + 20);
      assert.equal(await page.evaluate(() => scrollY), 0);
    }));

  test('two fingers take the chair apart', { skip: lacking('cdp') }, () =>
    touching(async (page, { send }) => {
      const { x, y, width, height } = await page.locator('#picture').boundingBox();
      const [cx, cy] = [x + width / 2, y + height * 0.55];
      await send('touchStart', { x: cx - 20, y: cy });
      await send('touchStart', { x: cx - 20, y: cy }, { x: cx + 20, y: cy });
      for (let by = 20; by <= 80; by += 10) await send('touchMove', { x: cx - by, y: cy }, { x: cx + by, y: cy });
      await send('touchEnd');
      await page.waitForFunction(() => /apart by/.test(document.querySelector('#picture').getAttribute('aria-label')));
    }));

  for (const kind of ['Side chair', 'Bar chair', 'Bench for three', 'Stool']) {
    test(`figures and grips of a ${kind.toLowerCase()} lie apart within the picture`, () =>
      touching(async (page) => {
        await page.getByRole('radio', { name: kind, exact: true }).check({ force: true });
        await settled(page);
        for (const view of ['corner', 'front', 'side']) {
          await look(page, view);
          const met = await page.evaluate(() => {
            const frame = document.querySelector('#picture').getBoundingClientRect();
            const parts = [...document.querySelectorAll('.dimension-figure, .dimension-grip:not([hidden]), .dimension-count, .dimension-switch > *, .tint-buttons > *')];
            const boxes = parts.map((part) => [part.className + (part.closest('[data-knob]')?.dataset.knob ?? ''), part.getBoundingClientRect()]);
            const wrong = boxes.filter(([name, box]) => box.left < frame.left - 1 || box.right > frame.right + 1 || box.top < frame.top - 1 || box.bottom > frame.bottom + 1).map(([name]) => `${name} is out`);
            boxes.forEach(([a, one], i) => boxes.slice(i + 1).forEach(([b, two]) => {
              const wide = Math.min(one.right, two.right) - Math.max(one.left, two.left);
              const high = Math.min(one.bottom, two.bottom) - Math.max(one.top, two.top);
              if (wide > 1 && high > 1) wrong.push(`${a} and ${b} meet`);
            }));
            return { wrong, count: parts.length };
          });
          assert.deepEqual(met.wrong, [], view);
          assert.ok(met.count > 2, `${view}: ${met.count}`);
        }
      }));
  }
});

describe('lengths', () => {
  test('are in inches all over the page once that is chosen, and stay so', () =>
    at(sizes.desk, async (desk, page) => {
      await page.getByRole('button', { name: 'Design', exact: true }).click();
      await page.getByRole('radio', { name: 'Inches and sixteenths' }).check({ force: true });
      await page.keyboard.press('Escape');
      assert.match(await desk.field('Seat height').inputValue(), /^≈ 17 11\/16$/);
      assert.match(await desk.titleBlock.innerText(), /17 11\/16\sin/);
      assert.match(await desk.rows.first().innerText(), /\d+ \d+\/16/);
      assert.equal(await grip(page, 'Seat height').getAttribute('aria-valuetext'), '≈ 17 11/16 inches');
      await desk.type('Seat height', '18 1/4');
      await desk.link('seat_height=463.55');
      await desk.type('Seat height', '455 mm');
      await desk.link('seat_height=455');
      await page.reload();
      await ready(page);
      assert.match(await desk.field('Seat height').inputValue(), /^≈ 17 15\/16$/);
      const { text } = await desk.saved(() => desk.menu('Save the design'));
      assert.equal(JSON.parse(text).knobs.seat_height, 455, 'the design itself knows no inches');
      await desk.slider('Seat height').focus();
      await page.keyboard.press('ArrowRight');
      assert.match(await desk.field('Seat height').inputValue(), /^17 \d+\/\d+$|^18$/, 'a step goes to a figure of the unit');
    }));
});

describe('the chair apart', () => {
  test('the wheel is the page’s, but with Ctrl', () =>
    at({ width: 1100, height: 620 }, async (desk, page) => {
      const { x, y, width, height } = await desk.picture.boundingBox();
      await page.mouse.move(x + width / 2, y + height / 2);
      await page.mouse.wheel(0, 200);
      await page.waitForFunction(() => scrollY > 0);
      assert.match(await desk.picture.getAttribute('aria-label'), /assembled/);
      await page.keyboard.down('Control');
      await page.mouse.wheel(0, -200);
      await page.keyboard.up('Control');
      await page.waitForFunction(() => /apart by/.test(document.querySelector('#picture').getAttribute('aria-label')));
    }));

  test('can be watched going together', () =>
    at(sizes.desk, async (desk, page) => {
      await page.getByRole('button', { name: 'Watch it go together' }).click();
      await note(page).filter({ hasText: /^Step 1 of \d+: \S/ }).waitFor();
      const one = await desk.drawing.innerHTML();
      await note(page).filter({ hasText: /^Step 2 of \d+: \S/ }).waitFor();
      assert.notEqual(await desk.drawing.innerHTML(), one);
      assert.equal(await page.locator('.dimension').count(), 0, 'no sizes while it moves');
      await page.getByRole('button', { name: 'Stop', exact: true }).click();
      await grip(page, 'Seat height').waitFor();
      assert.match(await desk.picture.getAttribute('aria-label'), /assembled/);
    }));

  test('goes together a step a press where motion is not wanted', async () => {
    const { page, context, faults } = await open(here.browser, here.server.address, { reducedMotion: 'reduce' });
    const desk = new Desk(page);
    await page.getByRole('button', { name: 'Watch it go together' }).click();
    const steps = Number(/of (\d+)/.exec(await note(page).innerText())[1]);
    const seen = new Set();
    for (let number = 1; number <= steps; number += 1) {
      assert.match(await note(page).innerText(), new RegExp(`^Step ${number} of `));
      await page.waitForFunction((was) => !was.includes(document.querySelector('#picture > svg').innerHTML), [...seen]);
      // A picture that was begun before the press may still come; a movement would be many.
      for (let changes = 0, still = ''; still !== (await desk.drawing.innerHTML()); changes += 1) {
        assert.ok(changes < 4, 'nothing moves by itself');
        still = await desk.drawing.innerHTML();
        await page.waitForTimeout(150);
      }
      seen.add(await desk.drawing.innerHTML());
      await page.getByRole('button', { name: 'Next step' }).click();
    }
    await page.getByRole('button', { name: 'Watch it go together' }).waitFor();
    assert.deepEqual(faults, []);
    await context.close();
  });
});
