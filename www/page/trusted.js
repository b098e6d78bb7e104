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
 * Parses the core's picture into a document of its own, where nothing runs or loads. Read as HTML
 * it takes half the time that the XML parser takes, and that is the largest share of a step.
 * @param {string} text
 * @returns {SVGSVGElement}
 */
export function parsePicture(text) {
  const parsed = new DOMParser().parseFromString(policy.createHTML(text), 'text/html').body.firstElementChild;
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
