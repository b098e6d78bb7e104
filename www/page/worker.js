// The worker of the served page: an ES module beside `crestrail.js` with `crestrail_bg.wasm`, and `papers.js` with
// `papers_bg.wasm`, which load when they are first asked for.
//
// For the packer:
// - Never shipped: tsconfig*.json, *.d.ts. Only for the single file: inside.js and the scripts named …-inline.js.
// - In the single file `./start-worker.js` stands for the text of start-worker-inline.js, and `./sheet-fonts.js` for
//   that of sheet-fonts-inline.js. They find four elements by id:
//     <script type="text/plain" id="worker-text">  the no-modules glue (global `wasm_bindgen`), then the bundle of
//                                                  worker-inline.js: one classic script
//     <script type="text/plain" id="core-base64">  both wasm files in one, as base64
//     <script type="text/plain" id="font-regular-base64">, and "font-medium-base64": the typefaces for PDF files
//   Links to the manifest and module preloads have no use there.
// - In sw.js the one line `const packed = null;` is replaced by
//   `const packed = {"version":"…","files":["./","main.js",…]};`, names relative to sw.js, without sw.js and
//   without crestrail.html.

import { serve } from './worker-core.js';

serve(/** @type {any} */ (self), {
  steps: begun(),
  papers: async () => {
    const papers = await import('./papers.js');
    await papers.default({ module_or_path: await load('papers_bg.wasm') });
    return papers;
  },
});

/** Both are asked for at once, not one after the other. */
async function begun() {
  const [steps, found] = await Promise.all([import('./crestrail.js'), load('crestrail_bg.wasm')]);
  await steps.default({ module_or_path: found });
  return steps;
}

/**
 * A part of the core as it comes, compiled while it loads; whole where the host calls it by another media type, which a
 * browser does not compile from a stream.
 * @param {string} file
 */
async function load(file) {
  const response = await fetch(new URL(`./${file}`, self.location.href));
  if (!response.ok) throw new Error(`${file}: ${response.status}`);
  return response.headers.get('Content-Type') === 'application/wasm' ? response : response.arrayBuffer();
}
