// Keeps one version of the page on the device, whole, so that it opens without a
// connection. The build puts version and files into the next line; a new build is
// thereby a new script, which the browser notices.
const BUILD = { version: '', files: [] };

// A version has a cache of its own and is taken whole or not at all: nothing of it is
// shown until every file of it has come and the server still gives that version, and a
// page gets all its files from one cache.
const PREFIX = 'unthreaded-';
const NAME = PREFIX + BUILD.version;
const INFO = 'build.json';

// clean returns a response as if nothing had led elsewhere: some hosts answer for
// index.html with the way to its folder, and no page may be answered with what was led on
// (Fetch Standard, HTTP fetch: a redirected response to a navigation is a network error).
async function clean(response) {
  if (!response.redirected) return response;
  return new Response(await response.blob(), { status: response.status, headers: response.headers });
}

async function fill() {
  const cache = await caches.open(NAME);
  try {
    for (const file of BUILD.files) {
      // The version in the address lets the browser use what it loaded a moment ago.
      const response = await fetch(file + '?v=' + BUILD.version);
      if (!response.ok) throw new Error(file + ': the server answered ' + response.status);
      await cache.put(file, await clean(response));
    }
    const info = await fetch(INFO, { cache: 'no-store' });
    if ((await info.clone().json()).version !== BUILD.version) throw new Error('a newer version has come in between');
    await cache.put(INFO, info);
  } catch (err) {
    await caches.delete(NAME);
    throw err;
  }
}

// mend fetches every file of this version anew, if the server still gives it: one that is
// kept may be damaged. What cannot be fetched stays as it is.
async function mend() {
  const info = await fetch(INFO, { cache: 'no-store' });
  if ((await info.json()).version !== BUILD.version) return; // the newer one is on its way
  const cache = await caches.open(NAME);
  for (const file of BUILD.files) {
    const response = await fetch(file + '?v=' + BUILD.version, { cache: 'reload' });
    if (response.ok) await cache.put(file, await clean(response));
  }
}

async function clearOld() {
  for (const name of await caches.keys()) {
    if (name.startsWith(PREFIX) && name !== NAME) await caches.delete(name);
  }
}

async function answer(request) {
  const path = new URL(request.url).pathname.slice(new URL(registration.scope).pathname.length);
  const cache = await caches.open(NAME);
  return (await cache.match(path || 'index.html')) || fetch(request);
}

addEventListener('install', (e) => e.waitUntil(fill()));
addEventListener('activate', (e) => e.waitUntil(clearOld()));
addEventListener('fetch', (e) => {
  const here = e.request.method === 'GET' && e.request.url.startsWith(registration.scope);
  // The script itself must come from the server, or no new version would ever be seen.
  if (here && !e.request.url.endsWith('/sw.js')) e.respondWith(answer(e.request));
});
// The page asks for the new version when the person wants it.
addEventListener('message', (e) => {
  if (e.data === 'take over') skipWaiting();
  if (e.data === 'mend') e.waitUntil(mend().catch(() => {}).then(() => e.ports[0].postMessage('done')));
});
