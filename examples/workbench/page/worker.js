// Keeps the page for when there is no network. All its files are taken at once, as they were at
// one time; a new state of them is a new worker.

const state = 'workbench /*state*/';
const files = [/*files*/];

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(state).then((cache) => cache.addAll(files)).then(() => self.skipWaiting()));
});

self.addEventListener('activate', (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith('workbench ') && name !== state) await caches.delete(name);
    }
    await self.clients.claim();
  })());
});

self.addEventListener('fetch', (event) => {
  if (event.request.method !== 'GET') return;
  event.respondWith((async () => {
    const cache = await caches.open(state);
    return (await cache.match(event.request, { ignoreSearch: true })) ?? fetch(event.request);
  })());
});
