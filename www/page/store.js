/** What the page keeps in this browser, by name. All names begin alike, so that other pages of the origin are not met. */
const PREFIX = 'crestrail/';
export { PREFIX as NAMES };

/**
 * @param {string} name or the whole key, as `setAside` gives it
 * @returns {string | null} null where nothing is kept, or the browser keeps nothing
 */
export function kept(name) {
  try {
    return localStorage.getItem(name.startsWith(PREFIX) ? name : PREFIX + name);
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
 * Moves what cannot be read out of the way, under a name of its own, so that nothing is lost. Where there is no room for it twice, it
 * is moved without a copy in between.
 * @param {string} name
 * @returns {string} the key under which it now is
 */
export function setAside(name) {
  const day = `${name}-unread-${new Date().toISOString().slice(0, 19)}`;
  let aside = day;
  // Within one second, or after a clock was set back, the name may be taken already.
  for (let more = 2; kept(aside) !== null; more++) aside = `${day}-${more}`;
  const text = kept(name);
  if (text === null) return PREFIX + aside;
  const copied = keep(aside, text);
  drop(name);
  if (copied || keep(aside, text)) return PREFIX + aside;
  keep(name, text);
  return PREFIX + name;
}

/** Whether this browser keeps anything at all, however little room is left. */
export function canKeep() {
  try {
    if (localStorage.length > 0) return true;
    localStorage.setItem(`${PREFIX}try`, '');
    localStorage.removeItem(`${PREFIX}try`);
    return true;
  } catch {
    return false;
  }
}

/** @param {string} name */
export function drop(name) {
  try {
    localStorage.removeItem(PREFIX + name);
  } catch {
    // A browser that keeps nothing has nothing to drop.
  }
}

/**
 * Remembers a text for as long as this tab is open, or forgets it.
 * @param {string} name
 * @param {string | null} text
 */
export function remember(name, text) {
  try {
    if (text === null) sessionStorage.removeItem(PREFIX + name);
    else sessionStorage.setItem(PREFIX + name, text);
  } catch {
    // A browser that keeps nothing has nothing to be told apart.
  }
}

/**
 * @param {string} name
 * @returns {string | null} what this tab remembers
 */
export function remembered(name) {
  try {
    return sessionStorage.getItem(PREFIX + name);
  } catch {
    return null;
  }
}
