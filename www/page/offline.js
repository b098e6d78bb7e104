import { Emitter } from './emitter.js';
import { served } from './start-worker.js';
import { scriptAddress } from './trusted.js';

/**
 * Keeps the page for use without a network. A newer version waits until it is asked for.
 * @extends {Emitter<{ ready: null, update: () => void }>}
 */
export class Offline extends Emitter {
  async start() {
    if (!served || !('serviceWorker' in navigator)) return;
    try {
      const first = !navigator.serviceWorker.controller;
      const registration = await navigator.serviceWorker.register(scriptAddress('./sw.js'), { updateViaCache: 'none' });
      this.#offer(registration);
      registration.addEventListener('updatefound', () => this.#watch(registration, first));
      if (registration.installing) this.#watch(registration, first);
    } catch (why) {
      // The page works without it, only not without a network.
      console.info('Not kept for use without a network:', why);
    }
  }

  /** @param {ServiceWorkerRegistration} registration @param {boolean} first */
  #watch(registration, first) {
    const worker = registration.installing;
    worker?.addEventListener('statechange', () => {
      if (worker.state === 'installed') this.#offer(registration);
      if (worker.state === 'activated' && first) this.emit('ready', null);
    });
  }

  /** @param {ServiceWorkerRegistration} registration */
  #offer(registration) {
    const { waiting } = registration;
    if (!waiting || !navigator.serviceWorker.controller) return;
    this.emit('update', () => {
      navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
      waiting.postMessage('take over');
    });
  }
}
