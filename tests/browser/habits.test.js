// Working habits: undo, the shelf, comparing, a chair from a number, keys, hints, drawings of what a knob moves, tabs, storage.
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { Desk, atDesk } from './desk.js';
import { open, ready, sizes, together } from './harness.js';

const KNOB = 'Seat height';
/** Markup, control characters, a mark that turns the direction of writing, and far more than has room. */
const HOSTILE = `<img src=x onerror="document.title='hacked'">\u0007\u202Egnp.exe\u0000${'x'.repeat(10_000)}`;

const here = together();
const at = (viewport, run) => atDesk(here, viewport, run);
const dialog = (page, name) => page.getByRole('dialog', { name, exact: true });
const step = (page, name) => page.getByRole('button', { name, exact: true });
/** Presses a key where nobody types. */
const press = async (page, key) => {
  await page.evaluate(() => document.activeElement?.blur());
  await page.keyboard.press(key);
};
const seat = (desk) => desk.field(KNOB).inputValue();
const holdsSeat = (page, value) => page.waitForFunction((wanted) => document.querySelector('#knob-seat_height')?.value === wanted, value);

describe('undo and redo', () => {
  test('by buttons and keys, and one drag is one step', () =>
    at(sizes.desk, async (desk, page) => {
      const first = await seat(desk);
      const undo = step(page, 'Undo');
      assert.equal(await undo.getAttribute('aria-disabled'), 'true');
      await desk.changing(() => desk.type(KNOB, '451'));
      const { x, y, width, height } = await desk.slider(KNOB).boundingBox();
      await page.mouse.move(x + width / 2, y + height / 2);
      await page.mouse.down();
      for (const share of [0.5, 0.55, 0.6, 0.65, 0.7]) await page.mouse.move(x + width * share, y + height / 2);
      await page.mouse.up();
      const dragged = await seat(desk);
      assert.notEqual(dragged, '451');
      await undo.click();
      await holdsSeat(page, '451');
      await undo.click();
      await holdsSeat(page, first);
      await press(page, 'Control+Shift+z');
      await holdsSeat(page, '451');
      await press(page, 'Control+y');
      await holdsSeat(page, dragged);
      await press(page, 'Control+z');
      await holdsSeat(page, '451');
    }));

  test('in the field of a size it is the size that goes back, but not while one types', () =>
    at(sizes.desk, async (desk, page) => {
      const first = await seat(desk);
      await desk.changing(() => desk.type(KNOB, '451'));
      await page.keyboard.press('Control+z');
      await holdsSeat(page, first);
      await desk.field(KNOB).press('End');
      await page.keyboard.type('9');
      await page.keyboard.press('Control+z');
      assert.equal(await seat(desk), first);
      assert.equal(await step(page, 'Undo').getAttribute('aria-disabled'), 'true');
      assert.equal(await step(page, 'Redo').getAttribute('aria-disabled'), 'false', 'nothing new was done');
    }));

  test('kinds, files and starting afresh are steps too, and loading anew loses none', () =>
    at(sizes.phone, async (desk, page) => {
      const first = await seat(desk);
      const { text } = await desk.saved(() => desk.menu('Save the design'));
      await desk.changing(() => desk.kind('Armchair').check({ force: true }));
      await desk.changing(() => desk.openFile(text.replace(/"seat_height":\s*[\d.]+/, '"seat_height": 462')));
      await desk.changing(() => desk.menu('Start afresh'));
      await desk.link('design/');
      await page.waitForTimeout(700);
      await page.reload();
      await ready(page);
      const undo = step(page, 'Undo');
      await undo.click();
      await holdsSeat(page, '462');
      await undo.click();
      await page.waitForFunction(() => document.querySelector('[name="kind"]:checked')?.value === 'armchair');
      await undo.click();
      await page.waitForFunction(() => document.querySelector('[name="kind"]:checked')?.value !== 'armchair');
      await holdsSeat(page, first);
      assert.equal(await undo.getAttribute('aria-disabled'), 'true');
      await step(page, 'Redo').click();
      await page.waitForFunction(() => document.querySelector('[name="kind"]:checked')?.value === 'armchair');
    }));

  test('in the Showroom', async () => {
    const { page, context, faults } = await open(here.browser, `${here.server.address}showroom.html`, { viewport: sizes.phone });
    const before = await page.url();
    const offer = page.locator('#kinds input').nth(1);
    await offer.check({ force: true });
    await page.waitForFunction((was) => location.href !== was, before);
    await step(page, 'Undo').click();
    await page.waitForFunction(() => document.querySelector('#kinds input').checked);
    assert.deepEqual(faults, []);
    await context.close();
  });
});

describe('the shelf', () => {
  const keep = async (page) => {
    await press(page, 'k');
    await dialog(page, 'Shelf').getByText('stands on the shelf.').waitFor();
  };

  test('keeps, renames, doubles, deletes with a way back, opens, and survives', () =>
    at(sizes.desk, async (desk, page) => {
      await desk.changing(() => desk.type(KNOB, '451'));
      await keep(page);
      const shelf = dialog(page, 'Shelf');
      const cards = shelf.locator('.shelf-card');
      await cards.first().locator('.shelf-picture svg').waitFor();
      assert.match(await cards.first().locator('.shelf-price').innerText(), /\d/);
      const name = cards.first().getByRole('textbox');
      await name.fill(HOSTILE.slice(0, 50));
      await name.press('Enter');
      assert.equal(await page.title(), 'Crestrail: a wooden chair from its sizes');
      const tidy = await cards.first().getByRole('textbox').inputValue();
      assert.ok(tidy.startsWith('<img src=x onerror='), tidy);
      await cards.first().getByRole('button', { name: /^Duplicate/ }).click();
      assert.equal(await cards.count(), 2);
      await cards.nth(1).getByRole('button', { name: /^Delete/ }).click();
      assert.equal(await cards.count(), 1);
      await shelf.getByRole('button', { name: 'Bring it back' }).click();
      assert.equal(await cards.count(), 2);
      assert.equal(await shelf.locator('img').count(), 0);
      await page.keyboard.press('Escape');
      await desk.changing(() => desk.type(KNOB, '433'));
      await desk.link('seat_height=433');
      await page.reload();
      await ready(page);
      await desk.menu('Shelf of designs…');
      await cards.nth(1).waitFor();
      assert.equal(await cards.count(), 2);
      await desk.changing(() => cards.first().getByRole('button', { name: /^Open/ }).last().click());
      assert.equal(await seat(desk), '451');
      await step(page, 'Undo').click();
      await holdsSeat(page, '433');
    }));

  test('goes to a file and comes back from it, and what is not its own is refused or left out', () =>
    at(sizes.phone, async (desk, page) => {
      await keep(page);
      const shelf = dialog(page, 'Shelf');
      const { name, text } = await desk.saved(() => shelf.getByRole('button', { name: 'Save the shelf as a file' }).click());
      assert.equal(name, 'chairs.shelf.json');
      await shelf.getByRole('button', { name: /^Delete/ }).click();
      const bring = async (words) => {
        const [chooser] = await Promise.all([page.waitForEvent('filechooser'), shelf.getByRole('button', { name: 'Add a shelf from a file…' }).click()]);
        await chooser.setFiles({ name: 'shelf.json', mimeType: 'application/json', buffer: Buffer.from(words) });
      };
      await bring(text);
      await shelf.getByText('1 design was added').waitFor();
      await bring(text.slice(0, -30));
      await shelf.getByText('not the file of a shelf').waitFor();
      const file = JSON.parse(text);
      const [one] = file.designs;
      const bad = [{ ...one, name: HOSTILE }, { ...one, knobs: { ...one.knobs, seat_height: 99_999 } }, { ...one, knobs: { wings: 2 } }];
      await bring(JSON.stringify({ ...file, designs: bad }));
      await shelf.getByText('2 were left out').waitFor();
      assert.equal(await shelf.locator('.shelf-card').count(), 2);
      const shown = await shelf.locator('.shelf-name').last().inputValue();
      assert.ok(shown.length <= 60 && !/[\u0000-\u001f\u202e]/.test(shown), shown);
      assert.equal(await shelf.evaluate((box) => box.scrollWidth <= box.clientWidth), true, 'nothing stands out at the side');
      await page.keyboard.press('Escape');
      // The same file opened from the menu is a shelf as well.
      await desk.openFile(text, 'shelf.json');
      await desk.notices.getByText('0 designs were added').waitFor();
    }));

  test('a full storage is told, and nothing is lost', () =>
    at(sizes.desk, async (desk, page) => {
      await keep(page);
      await page.keyboard.press('Escape');
      await page.evaluate(() => {
        for (let size = 4_000_000; size > 4; size = Math.floor(size / 2)) {
          try {
            for (let i = 0; ; i += 1) localStorage.setItem(`fill-${size}-${i}`, 'x'.repeat(size));
          } catch {}
        }
      });
      await press(page, 'k');
      const shelf = dialog(page, 'Shelf');
      await shelf.getByText('no room left for the shelf').waitFor();
      assert.equal(await shelf.locator('.shelf-card').count(), 1);
      await page.keyboard.press('Escape');
      await desk.changing(() => desk.type(KNOB, '451'));
      await page.getByRole('textbox', { name: 'Name of this design' }).fill('A name that takes more room than there is');
      await desk.notices.getByText('does not let the page keep the design').waitFor();
      await step(page, 'Undo').click();
      await holdsSeat(page, '450');
    }));

  test('a corrupt one is set aside and offered as a file', () =>
    at(sizes.desk, async (desk, page) => {
      await page.evaluate(() => localStorage.setItem('crestrail/shelf', '{"crestrail":"shelf/1","designs":[{"id":"a"'));
      await press(page, 'l');
      await dialog(page, 'Shelf').waitFor();
      await page.keyboard.press('Escape');
      const notice = desk.notices.filter({ hasText: 'The shelf kept in this browser could not be read' });
      const { text } = await desk.saved(() => notice.getByRole('button', { name: 'Save what was kept' }).click());
      assert.equal(text, '{"crestrail":"shelf/1","designs":[{"id":"a"');
    }));
});

describe('side by side', () => {
  for (const [size, viewport] of Object.entries(sizes)) {
    test(`pictures to one scale, what differs and the price, at the width of a ${size}`, () =>
      at(viewport, async (desk, page) => {
        await press(page, 'k');
        const shelf = dialog(page, 'Shelf');
        await shelf.locator('.shelf-picture svg').waitFor();
        const button = shelf.getByRole('button', { name: /^Compare \(/ });
        await shelf.locator('.shelf-card').getByRole('checkbox').check();
        assert.equal(await button.getAttribute('aria-disabled'), 'true');
        await page.keyboard.press('Escape');
        await desk.changing(() => desk.kind('Stool').check({ force: true }));
        await press(page, 'l');
        await shelf.locator('.shelf-card').getByRole('checkbox').check();
        await shelf.getByRole('checkbox', { name: 'Compare with the chair shown' }).check();
        await button.click();
        const compare = dialog(page, 'Side by side');
        await compare.locator('.compare-picture svg').nth(1).waitFor();
        const boxes = await compare.locator('.compare-picture svg').evaluateAll((all) => all.map((svg) => [svg.getAttribute('viewBox'), Math.round(svg.getBoundingClientRect().width)]));
        assert.deepEqual(boxes[0], boxes[1]);
        const rows = await compare.locator('.compare-scroll tbody tr').allInnerTexts();
        assert.match(rows[0], /^Price\s.*\d/s);
        assert.ok(rows.some((row) => row.startsWith('Height')), rows.join(' / '));
        for (const row of rows.slice(1)) {
          const [, ...cells] = row.split('\t');
          assert.ok(new Set(cells).size > 1, row);
        }
        await compare.getByText('are the same').click();
        assert.ok((await compare.locator('.compare-same tbody tr').count()) > 5);
        await page.emulateMedia({ media: 'print' });
        await page.evaluate(() => document.documentElement.classList.add('print-compare'));
        assert.equal(await page.locator('.sheet').isVisible(), false);
        assert.equal(await compare.locator('.compare-table').first().isVisible(), true);
      }));
  }
});

describe('a chair from a number', () => {
  const draw = async (desk, page, number) => {
    await desk.menu('Surprise me…');
    const surprise = dialog(page, 'A chair from a number');
    await surprise.getByRole('textbox').fill(number);
    await desk.changing(() => surprise.getByRole('button', { name: 'Draw the chair' }).click());
    await desk.notices.getByText(`chair number ${number}`).waitFor();
    return desk.shown();
  };

  test('holds, comes again from its number, and can be taken back', () =>
    at(sizes.desk, async (desk, page) => {
      const before = await desk.shown();
      const one = await draw(desk, page, '4217');
      assert.doesNotMatch(one.sizes, /fail/);
      await page.getByRole('tab', { name: 'Checks and cautions' }).click();
      assert.equal(await page.locator('#lists [role="tabpanel"]:not([hidden]) [data-verdict="fails"]').count(), 0);
      const two = await draw(desk, page, '4218');
      assert.notDeepEqual(two, one);
      assert.deepEqual(await draw(desk, page, '4217'), one);
      for (let i = 0; i < 3; i += 1) await desk.changing(() => step(page, 'Undo').click());
      assert.deepEqual(await desk.shown(), before);
    }));

  test('a number that is none is refused, and drawing can be stopped', () =>
    at(sizes.phone, async (desk, page) => {
      const before = await desk.shown();
      await desk.menu('Surprise me…');
      const surprise = dialog(page, 'A chair from a number');
      await surprise.getByRole('textbox').fill('12.5x');
      await surprise.getByRole('button', { name: 'Draw the chair' }).click();
      await surprise.getByText('Type a whole number').waitFor();
      await surprise.getByRole('textbox').fill('99');
      await surprise.getByRole('button', { name: 'Draw the chair' }).click();
      await surprise.getByRole('button', { name: 'Stop' }).click();
      await surprise.getByText('Stopped.').waitFor();
      await page.keyboard.press('Escape');
      assert.deepEqual(await desk.shown(), before);
    }));

  test('in the Showroom it stays within what is offered', async () => {
    const { page, context, faults } = await open(here.browser, `${here.server.address}showroom.html`);
    const link = () => page.evaluate(() => location.hash);
    const before = await link();
    await page.getByRole('button', { name: 'Surprise me…' }).click();
    await dialog(page, 'A chair from a number').getByRole('textbox').fill('31');
    await page.getByRole('button', { name: 'Draw the chair' }).click();
    await page.locator('#notices').getByText('chair number 31').waitFor();
    await page.waitForFunction((was) => location.hash !== was, before);
    assert.equal(await page.locator('.advice [data-verdict="fails"]').count(), 0);
    await page.reload();
    await ready(page);
    assert.equal(await page.locator('#notices').getByText('not offered').count(), 0);
    assert.deepEqual(faults, []);
    await context.close();
  });
});

describe('keys', () => {
  test('a question mark shows them, they are silent while somebody types, and can be turned off', () =>
    at(sizes.desk, async (desk, page) => {
      await press(page, '?');
      const keys = dialog(page, 'Keys');
      await keys.waitFor();
      assert.ok((await keys.locator('.keys-row').count()) > 10);
      await page.keyboard.press('Escape');
      const name = page.getByRole('textbox', { name: 'Name of this design' });
      await name.focus();
      await page.keyboard.type('kl?1ar');
      assert.equal(await name.inputValue(), 'kl?1ar');
      assert.equal(await page.getByRole('dialog').count(), 0);
      await press(page, '1');
      await page.getByRole('button', { name: 'Look at the front', pressed: true }).waitFor();
      await desk.menu('Keys…');
      await keys.getByRole('checkbox').uncheck();
      await page.keyboard.press('Escape');
      await press(page, 'l');
      assert.equal(await page.getByRole('dialog').count(), 0);
    }));
});

describe('hints', () => {
  test('three at most, by keyboard, and never again', () =>
    at(sizes.phone, async (desk, page) => {
      const hint = page.getByRole('complementary', { name: 'For your first visit' });
      const seen = new Set();
      for (let i = 0; i < 3; i += 1) {
        seen.add(await hint.locator('.hint-words').innerText());
        await hint.getByRole('button').first().focus();
        await page.keyboard.press('Enter');
      }
      assert.equal(seen.size, 3);
      assert.equal(await hint.count(), 0);
      await page.reload();
      await ready(page);
      assert.equal(await hint.count(), 0);
    }));
});

describe('what a knob moves', () => {
  test('is drawn beside its help, and every knob has a drawing or says that nothing moves', () =>
    at(sizes.desk, async (desk, page) => {
      await page.getByRole('button', { name: 'What is Seat height?' }).click();
      const figure = page.locator('[data-knob="seat_height"] .knob-figure');
      await figure.locator('svg .way').waitFor();
      assert.ok((await figure.locator('.moved').count()) > 3);
      assert.match(await figure.innerText(), /from \d+ mm, in grey, to \d+ mm/);
      for (const group of await page.locator('#knobs details').all()) await group.evaluate((box) => (box.open = true));
      const asks = page.locator('#knobs .knob:not([hidden]) .knob-ask[aria-expanded="false"]');
      for (let left = await asks.count(); left > 0; left -= 1) await asks.first().click();
      await page.waitForFunction(() => [...document.querySelectorAll('#knobs .knob:not([hidden]) .knob-figure')].every((box) => box.querySelector('.help-words')));
      const drawn = await page.locator('#knobs .knob:not([hidden]) .knob-figure svg').count();
      assert.ok(drawn > 15, `${drawn} drawings`);
    }));
});

describe('tabs and storage', () => {
  test('two tabs keep their designs apart, and a closed one leaves its chair on the shelf', async () => {
    const { page, context, faults } = await open(here.browser, here.server.address);
    const desk = new Desk(page);
    await desk.changing(() => desk.type(KNOB, '451'));
    await desk.link('seat_height=451');
    const other = await context.newPage();
    await other.goto(here.server.address);
    await ready(other);
    const second = new Desk(other);
    assert.equal(await second.field(KNOB).inputValue(), '451', 'it begins with what the first one has');
    await second.notices.getByText('open in another tab').waitFor();
    await second.changing(() => second.type(KNOB, '433'));
    await second.link('seat_height=433');
    await page.reload();
    await ready(page);
    assert.equal(await seat(desk), '451');
    await other.reload();
    await ready(other);
    assert.equal(await second.field(KNOB).inputValue(), '433');
    await other.close();
    await page.reload();
    await ready(page);
    assert.equal(await seat(desk), '451');
    const notice = desk.notices.filter({ hasText: 'is put on the shelf' });
    await notice.getByRole('button', { name: 'See the shelf' }).click();
    await dialog(page, 'Shelf').locator('.shelf-picture svg').waitFor();
    assert.deepEqual(faults, []);
    await context.close();
  });

  test('where nothing can be kept, work goes on and it is told', async () => {
    const context = await here.browser.newContext({ viewport: sizes.desk, locale: 'en-GB' });
    await context.addInitScript(() => {
      for (const name of ['localStorage', 'sessionStorage']) {
        Object.defineProperty(window, name, { get: () => { throw new DOMException('no', 'SecurityError'); } });
      }
    });
    const page = await context.newPage();
    await page.goto(here.server.address);
    await ready(page);
    const desk = new Desk(page);
    await desk.changing(() => desk.type(KNOB, '451'));
    await desk.notices.getByText('does not let the page keep the design').waitFor();
    await step(page, 'Undo').click();
    await holdsSeat(page, '450');
    await press(page, 'k');
    const shelf = dialog(page, 'Shelf');
    await shelf.getByText('keeps nothing').waitFor();
    assert.equal(await shelf.locator('.shelf-card').count(), 1);
    await context.close();
  });

  test('a workshop that cannot be read is set aside and offered as a file', async () => {
    const { page, context } = await open(here.browser, here.server.address);
    await page.evaluate(() => localStorage.setItem('crestrail/shop', '{"torn": '));
    await page.reload();
    await ready(page);
    const desk = new Desk(page);
    const notice = desk.notices.filter({ hasText: 'The workshop kept in this browser could not be read' });
    const { text } = await desk.saved(() => notice.getByRole('button', { name: 'Save what was kept' }).click());
    assert.equal(text, '{"torn": ');
    await context.close();
  });

  test('a design that cannot be read is set aside and offered as a file', async () => {
    const { page, context } = await open(here.browser, here.server.address);
    await new Desk(page).link('design/');
    await page.evaluate(() => localStorage.setItem('crestrail/design', 'torn <b>'));
    const again = await context.newPage();
    await page.close();
    await again.goto(here.server.address);
    await ready(again);
    const found = new Desk(again);
    const notice = found.notices.filter({ hasText: 'set aside' });
    const { text } = await found.saved(() => notice.getByRole('button', { name: 'Save what was kept' }).click());
    assert.equal(text, 'torn <b>');
    await context.close();
  });
});

describe('dropped on the Showroom', () => {
  test('a saved design opens where it is offered, and what is none is refused in words', async () => {
    const { page: bench, context: first } = await open(here.browser, here.server.address);
    const { text } = await new Desk(bench).saved(() => new Desk(bench).menu('Save the design'));
    await first.close();
    const { page, context, faults } = await open(here.browser, `${here.server.address}showroom.html`, { viewport: sizes.phone });
    const drop = (words) =>
      page.evaluate((file) => {
        const carried = new DataTransfer();
        carried.items.add(new File([file], 'chair.design.json', { type: 'application/json' }));
        document.body.dispatchEvent(new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: carried }));
      }, words);
    await drop(text.slice(0, -20));
    await page.locator('#notices').getByText('Could not open “chair.design.json”').waitFor();
    await drop(text.replace(/"seat_height":\s*[\d.]+/, '"seat_height": 462'));
    await page.waitForFunction(() => document.querySelector('#knob-seat_height')?.value === '462');
    await step(page, 'Undo').click();
    await page.waitForFunction(() => document.querySelector('#knob-seat_height')?.value !== '462');
    assert.deepEqual(faults, []);
    await context.close();
  });
});

describe('long work', () => {
  test('can be stopped: what moves the price, the bench book', () =>
    at(sizes.desk, async (desk, page) => {
      await page.getByRole('tab', { name: 'Price and work' }).click();
      const moves = page.locator('.moves-group');
      await moves.locator('summary').click();
      await moves.getByRole('button', { name: 'Stop' }).click();
      await moves.getByText('Stopped.').waitFor();
      await moves.getByRole('button', { name: 'Work it out again' }).waitFor();
      await page.getByRole('tab', { name: 'Sheets' }).click();
      await page.locator('.sheet-row').first().waitFor();
      await page.getByRole('button', { name: 'Save the bench book, PDF' }).click();
      await page.locator('.sheets').getByRole('button', { name: 'Stop' }).click();
      await page.locator('.sheets').getByText('Stopped.').waitFor();
    }));

  test('a file that is dragged over the page is asked for in words', () =>
    at(sizes.phone, async (desk, page) => {
      await page.evaluate(() => {
        const carried = new DataTransfer();
        carried.items.add(new File(['x'], 'x.json'));
        document.body.dispatchEvent(new DragEvent('dragover', { bubbles: true, cancelable: true, dataTransfer: carried }));
      });
      const cue = await page.evaluate(() => getComputedStyle(document.documentElement, '::before').content);
      assert.equal(cue, '"Let go to open it"');
    }));
});
