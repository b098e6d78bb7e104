// After one visit the page needs no server.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { Desk } from './desk.js';
import { browse, open, ready, serve } from './harness.js';

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser.close());

test('it works when the server has gone', async () => {
  const server = await serve();
  const { page, context, faults } = await open(browser, server.address);
  await page.evaluate(() => navigator.serviceWorker.ready);
  // The worker serves the page once it has taken over, which is after it has everything.
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  // What the page asked for with little hurry, such as its icon, belongs to the visit too.
  await page.waitForLoadState('networkidle');
  await server.stop();
  await assert.rejects(fetch(server.address), 'the server still answers');

  await page.reload();
  await ready(page);
  const desk = new Desk(page);
  await desk.changing(() => desk.type('Seat height', '470'));
  assert.ok((await desk.rows.count()) >= 8);

  const other = await context.newPage();
  await other.goto(`${server.address}index.html`);
  await ready(other);
  assert.deepEqual(faults, []);
  await context.close();
});
