/** What the page keeps in this browser, by name. All names begin alike, so that other pages of the origin are not met. */
const PREFIX = 'crestrail/';

/**
 * @param {string} name
 * @returns {string | null} null where nothing is kept, or the browser keeps nothing
 */
export function kept(name) {
  try {
    return localStorage.getItem(PREFIX + name);
  } catch {
    return null;
  }
}

/**
 * @param {string} name
 * @param {string} text
 * @returns {boolean} false where the browser refuses, as in some private windows
 */
export function keep(name, text) {
  try {
    localStorage.setItem(PREFIX + name, text);
    return true;
  } catch {
    return false;
  }
}

/**
 * Moves what cannot be read out of the way, under a name of its own, so that nothing is lost.
 * @param {string} name
 * @returns {string} the key under which it now is
 */
export function setAside(name) {
  const aside = `${name}-unread-${new Date().toISOString().slice(0, 19)}`;
  const text = kept(name);
  if (text !== null && keep(aside, text)) localStorage.removeItem(PREFIX + name);
  return PREFIX + aside;
}
