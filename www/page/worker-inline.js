// The worker of the single file: the page compiles the core and posts the module. Questions may come
// before it, and wait.
import { serve } from './worker-core.js';

const scope = /** @type {DedicatedWorkerGlobalScope} */ (/** @type {unknown} */ (self));

/** @type {Promise<WebAssembly.Module>} */
const compiled = new Promise((settle) => {
  scope.addEventListener('message', ({ data }) => data.module && settle(data.module));
});
const bindings = /** @type {any} */ (globalThis).wasm_bindgen;
const whole = compiled.then((module) => bindings({ module_or_path: module })).then(() => bindings);
serve(scope, { steps: whole, papers: () => whole });
