// Files of solids: glTF before the validator of those who keep the format, and what the page saves.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { test } from 'node:test';
import validator from 'gltf-validator';
import { savedFile } from './engines.js';
import { open, together } from './harness.js';

const here = together();
const root = fileURLToPath(new URL('../..', import.meta.url));

/** Asks the core's probe, one line a request. @param {object[]} requests */
function probe(requests) {
  const input = requests.map((request) => JSON.stringify(request)).join('\n');
  const said = execFileSync('cargo', ['run', '--quiet', '--package', 'crestrail-tests', '--bin', 'probe'], { cwd: root, input, maxBuffer: 1 << 28 });
  return said.toString().trim().split('\n').map((line) => JSON.parse(line).ok);
}

/** What the validator finds: no errors, no warnings and no hints either. @param {Uint8Array} bytes @param {string} what */
async function validate(bytes, what) {
  const { issues, info } = await validator.validateBytes(bytes, { maxIssues: 20 });
  assert.deepEqual(issues.messages, [], what);
  assert.equal(issues.numErrors + issues.numWarnings, 0);
  return info;
}

test('the validator of glTF finds nothing wrong with any kind of chair, nor with a part', async () => {
  const [families] = probe([{ ask: 'families' }]);
  const designs = families.map(({ name }) => ({ family: name }));
  const asked = [...designs.map((design) => ({ ask: 'exchange', format: 'glb', design })), { ask: 'exchange', format: 'glb', part: 'B-left' }];
  const files = probe(asked);
  assert.equal(files.length, designs.length + 1);
  for (const [i, { base64 }] of files.entries()) {
    const info = await validate(Buffer.from(base64, 'base64'), JSON.stringify(asked[i]));
    assert.ok(info.totalTriangleCount > 100 && info.materialCount > 0);
  }
});

test('the page saves solids of the whole chair and of a part', async () => {
  const { page, context, faults } = await open(here.browser, here.server.address);
  await page.getByText('Solids for other programs').click();
  const part = page.locator('#solids-part');
  await part.locator('option[value="B"]').waitFor({ state: 'attached' });
  const save = async (/** @type {string} */ format) => {
    const button = page.locator('.solids').getByRole('button', { name: format, exact: true });
    const [download] = await Promise.all([savedFile(page), button.click()]);
    return { name: download.suggestedFilename(), bytes: await readFile(await download.path()) };
  };
  const glb = await save('glTF');
  assert.match(glb.name, /chair\.glb$/);
  await validate(glb.bytes, glb.name);
  await part.selectOption('B');
  const stl = await save('STL');
  assert.match(stl.name, /b\.stl$/);
  assert.equal(stl.bytes.length, 84 + 50 * stl.bytes.readUInt32LE(80));
  const step = (await save('STEP')).bytes.toString('latin1');
  assert.match(step, /^ISO-10303-21;/);
  assert.match(step, /FILE_NAME\('[^']*','20\d\d-\d\d-\d\dT\d\d:\d\d:\d\d'/);
  assert.deepEqual(faults, []);
  await context.close();
});
