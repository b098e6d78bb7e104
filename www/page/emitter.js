/**
 * Tells others of events by name; the base of everything that `main.js` listens to.
 * @template {Record<string, any>} Events
 */
export class Emitter {
  /** @type {Map<keyof Events, ((detail: any) => void)[]>} */
  #listeners = new Map();

  /**
   * @template {keyof Events} Name
   * @param {Name} name
   * @param {(detail: Events[Name]) => void} listener
   */
  on(name, listener) {
    this.#listeners.set(name, [...(this.#listeners.get(name) ?? []), listener]);
  }

  /**
   * @template {keyof Events} Name
   * @param {Name} name
   * @param {Events[Name]} detail
   * @protected
   */
  emit(name, detail) {
    for (const listener of this.#listeners.get(name) ?? []) listener(detail);
  }
}
