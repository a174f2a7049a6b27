// SPDX-License-Identifier: Apache-2.0
// Offline: registers the service worker where the browser allows one, and tells when a new version waits.

export type Offline =
  | 'unsupported' // no service workers, or no secure origin
  | 'starting'
  | 'ready' // this version is kept on the device
  | 'waiting' // a newer one is there and waits to take over
  | 'failed';

let current = $state<Offline>('starting');
let registration: ServiceWorkerRegistration | undefined;

export const offline = (): Offline => current;

export async function registerOffline(): Promise<void> {
  if (!('serviceWorker' in navigator) || !isSecureContext || import.meta.env.DEV) {
    current = 'unsupported';
    return;
  }
  try {
    registration = await navigator.serviceWorker.register('./service-worker.js', { updateViaCache: 'none' });
    watch(registration);
    await navigator.serviceWorker.ready;
    if (current === 'starting') current = 'ready';
  } catch {
    current = 'failed';
  }
}

function watch(of: ServiceWorkerRegistration): void {
  const see = (worker: ServiceWorker | null): void => {
    // The very first one takes over by itself.
    worker?.addEventListener('statechange', () => {
      if (worker.state === 'installed' && navigator.serviceWorker.controller) current = 'waiting';
    });
  };
  if (of.waiting && navigator.serviceWorker.controller) current = 'waiting';
  see(of.installing);
  of.addEventListener('updatefound', () => see(of.installing));
}

/** Lets the new version take over, and reloads every open tab of the page with it. Only with all work written. */
export function takeOver(): void {
  registration?.waiting?.postMessage('take over');
}

/** `mayReload` writes what is unsent; where it cannot, this tab stays as it is and `stays` says so. */
export function reloadOnTakeOver(mayReload: () => Promise<boolean>, stays: () => void): void {
  if (!('serviceWorker' in navigator)) return;
  let first = navigator.serviceWorker.controller === null;
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (first) first = false;
    // Nobody took over: the browser was told to forget this site. The open page is all that is left of its work.
    else if (navigator.serviceWorker.controller === null) return;
    else void mayReload().catch(() => false).then((may) => (may ? location.reload() : stays()));
  });
}
