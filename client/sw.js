/* Keeps the built page for the next visit without a network. What the server computes is always asked of the server. */
const build = self.__BUILD__ ?? { id: 'none', files: [] };

self.addEventListener('install', (e) => e.waitUntil(caches.open(build.id).then((cache) => cache.addAll(build.files))));

self.addEventListener('activate', (e) =>
  e.waitUntil(
    caches
      .keys()
      .then((ids) => Promise.all(ids.filter((id) => id !== build.id && id !== 'lampwright-plans').map((id) => caches.delete(id))))
      .then(() => self.clients.claim()),
  ),
);

self.addEventListener('fetch', (e) => {
  const url = new URL(e.request.url);
  if (e.request.method !== 'GET' || url.origin !== location.origin || url.pathname.startsWith('/api/')) return;
  e.respondWith(caches.match(e.request.mode === 'navigate' ? '/' : e.request).then((kept) => kept ?? fetch(e.request)));
});
