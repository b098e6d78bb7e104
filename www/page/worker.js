// The worker of the served page: an ES module beside `crestrail.js` and `crestrail_bg.wasm`.
//
// For the packer:
// - Never shipped: tsconfig*.json, *.d.ts. Only for the single file: inside.js and the scripts named …-inline.js.
// - In the single file `./start-worker.js` stands for the text of start-worker-inline.js, and `./sheet-fonts.js` for
//   that of sheet-fonts-inline.js. They find four elements by id:
//     <script type="text/plain" id="worker-text">  the no-modules glue (global `wasm_bindgen`), then the bundle of
//                                                  worker-inline.js: one classic script
//     <script type="text/plain" id="core-base64">  crestrail_bg.wasm as base64
//     <script type="text/plain" id="font-regular-base64">, and "font-medium-base64": the typefaces for PDF files
//   Links to the manifest and module preloads have no use there.
// - In sw.js the one line `const packed = null;` is replaced by
//   `const packed = {"version":"…","files":["./","main.js",…]};`, names relative to sw.js, without sw.js and
//   without crestrail.html.

import init, * as api from './crestrail.js';
import { serve } from './worker-core.js';

serve(/** @type {any} */ (self), core().then((found) => init({ module_or_path: found })).then(() => api));

/**
 * The core as it comes, compiled while it loads; whole where the host calls it by another media type, which a browser
 * does not compile from a stream.
 */
async function core() {
  const response = await fetch(new URL('./crestrail_bg.wasm', self.location.href));
  if (!response.ok) throw new Error(`crestrail_bg.wasm could not be loaded (${response.status}). Put the whole folder on the site.`);
  return response.headers.get('Content-Type') === 'application/wasm' ? response : response.arrayBuffer();
}
