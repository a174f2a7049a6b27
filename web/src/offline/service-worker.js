// SPDX-License-Identifier: Apache-2.0
// Keeps the page's own files, all of one version together, so that it starts without signal. Answers of the server's
// interface (api/) are never kept. A new version waits until the page says that the work is written ("take over").
// The build puts version and files in here.
const version = '__VERSION__';
const files = __FILES__;
const prefix = 'duskwire-page-';

self.addEventListener('install', (event) => {
  event.waitUntil(fill());
});

// All or nothing: a half-downloaded version is thrown away and the old one goes on.
async function fill() {
  const cache = await caches.open(prefix + version);
  try {
    await cache.addAll(files.map((file) => new Request(file, { cache: 'reload' })));
  } catch (error) {
    await caches.delete(prefix + version);
    throw error;
  }
}

self.addEventListener('activate', (event) => {
  event.waitUntil(dropOthers().then(() => self.clients.claim()));
});

async function dropOthers() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(prefix) && name !== prefix + version);
  await Promise.all(old.map((name) => caches.delete(name)));
}

self.addEventListener('message', (event) => {
  if (event.data === 'take over') void self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const path = new URL(request.url).href.slice(self.registration.scope.length);
  if (request.method !== 'GET' || !request.url.startsWith(self.registration.scope) || path.startsWith('api/')) return;
  event.respondWith(answer(request, path));
});

async function answer(request, path) {
  const cache = await caches.open(prefix + version);
  const name = path.replace(/[?#].*$/, '');
  const kept = await cache.match(request.mode === 'navigate' && (name === '' || name === 'index.html') ? './' : request, { ignoreSearch: true, ignoreVary: true });
  return kept ?? fetch(request);
}
