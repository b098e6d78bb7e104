// Runs before anything is painted, without a module: whether the chair that was written into the page when it was packed is
// the one to be shown here, and light or dark. `data-first` says `whole` (it is), `drawn` (its picture is, but words or
// price are others) or `none` (another chair comes: from a link, from this browser, or as a page around wishes).
(() => {
  const root = document.documentElement;
  const { firstLink, firstFile, firstKept, firstLanguages } = root.dataset;

  /** @param {'localStorage' | 'sessionStorage'} where @param {string} name */
  const kept = (where, name) => {
    try {
      return window[where].getItem(`crestrail/${name}`);
    } catch {
      return null;
    }
  };

  /** FNV-1a, as the packer works it out. @param {string} text */
  const fingerprint = (text) => {
    let hash = 0x811c9dc5;
    for (const byte of new TextEncoder().encode(text)) hash = Math.imul(hash ^ byte, 0x01000193);
    return (hash >>> 0).toString(16).padStart(8, '0');
  };

  const isFirstChair = () => {
    const link = location.hash.slice(1);
    const own = kept('localStorage', kept('sessionStorage', `${firstKept}-place`) ?? firstKept ?? '') ?? kept('localStorage', firstKept ?? '');
    // What kind of chair a page around wishes is heard later.
    const isFramed = window.parent !== window;
    return !isFramed && (link === '' || link === firstLink) && (own === null || fingerprint(own) === firstFile);
  };

  const speaksIt = () => {
    if (root.dataset.language !== 'chosen') return true;
    const known = (/** @type {string} */ tag) => firstLanguages?.split(' ').includes(tag.split('-')[0]?.toLowerCase() ?? '');
    const tag = kept('localStorage', 'language') ?? navigator.languages.find(known) ?? root.lang;
    return tag.split('-')[0] === root.lang.split('-')[0];
  };

  const isPlain = () => kept('localStorage', 'lengths') === null && (firstKept !== 'design' || kept('localStorage', 'shop') === null);

  const scheme = kept('localStorage', 'scheme');
  const device = matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light';
  root.dataset.scheme = scheme === 'light' || scheme === 'dark' ? scheme : device;
  if (firstLink !== undefined) root.dataset.first = !isFirstChair() ? 'none' : speaksIt() && isPlain() ? 'whole' : 'drawn';
})();
