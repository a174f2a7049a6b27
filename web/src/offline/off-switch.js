// SPDX-License-Identifier: Apache-2.0
// The worker that ends all workers. A host whose kept version does harm serves this file as service-worker.js: the next
// time a page looks for a new version, what was kept of the page's files goes, and pages come from the host again. Jobs
// and pictures of the browser are not touched (web/README.md).
self.addEventListener('install', () => void self.skipWaiting());

self.addEventListener('activate', (event) => {
  event.waitUntil(end());
});

async function end() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith('duskwire-page-')).map((name) => caches.delete(name)));
  await self.registration.unregister();
}
