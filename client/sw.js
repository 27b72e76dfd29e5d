/* Keeps the built page for the next visit without a network. What the server computes is always asked of the server. */
const build = self.__BUILD__ ?? { id: 'none', files: [] };

/* The demonstrations too, so that the examples are there without a network; without them the page still is. */
const keepPlans = async () => {
  try {
    const list = await fetch('/api/plans');
    const cache = await caches.open('lampwright-plans');
    await cache.put('/api/plans', list.clone());
    await cache.addAll((await list.json()).map(({ id }) => `/api/plans/${encodeURIComponent(id)}`));
  } catch {
    // they are kept as they are opened
  }
};

self.addEventListener('install', (e) =>
  e.waitUntil(Promise.all([caches.open(build.id).then((cache) => cache.addAll(build.files)), keepPlans()])),
);

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
