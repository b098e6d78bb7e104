/**
 * The one Trusted Types policy of the page. Strings reach a parser or a worker only through it:
 * the core's picture, and the addresses of our own two scripts.
 */
const rules = {
  /** @param {string} text */
  createHTML(text) {
    if (!/^\s*(<\?xml[^>]*\?>\s*)?<svg[\s>]/.test(text)) throw new TypeError('Only a picture of the core may be parsed.');
    return text;
  },
  /** @param {string} address */
  createScriptURL(address) {
    if (!['./worker.js', './sw.js'].includes(address) && !address.startsWith('blob:')) {
      throw new TypeError(`Not a script of this page: ${address}`);
    }
    return address;
  },
};

/** @type {{ createHTML(text: string): string, createScriptURL(address: string): string }} */
const policy = /** @type {any} */ (globalThis).trustedTypes?.createPolicy('crestrail', rules) ?? rules;

/**
 * Parses the core's picture as XML; nothing in it runs.
 * @param {string} text
 * @returns {SVGSVGElement}
 */
export function parsePicture(text) {
  const parsed = new DOMParser().parseFromString(policy.createHTML(text), 'image/svg+xml').documentElement;
  if (!(parsed instanceof SVGSVGElement)) throw new Error('The picture is not whole.');
  return document.adoptNode(parsed);
}

/**
 * The address of one of the page's own scripts, resolved against the page.
 * @param {'./worker.js' | './sw.js'} name
 */
export function scriptAddress(name) {
  return policy.createScriptURL(name);
}

/**
 * The address of a script made from text inside the page.
 * @param {string} address
 */
export function blobAddress(address) {
  return policy.createScriptURL(address);
}
