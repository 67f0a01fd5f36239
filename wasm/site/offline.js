// Has the page kept on the device, so that it opens without a connection, and offers a
// new version when one has come.
'use strict';

(() => {
  const offer = document.getElementById('newer');
  let waiting = null;

  function found(worker) {
    waiting = worker;
    offer.hidden = false;
  }

  // A worker beside one that is in charge brings a new version; the first brings none.
  function watch(worker) {
    worker.addEventListener('statechange', () => {
      if (worker.state === 'installed' && navigator.serviceWorker.controller) found(worker);
    });
  }

  unthreaded.offline = {
    // start is called once the program runs, so that keeping it does not slow down the
    // first sight of it. Without a connection there is nothing new to look for.
    async start() {
      if (!('serviceWorker' in navigator) || !navigator.onLine) return;
      try {
        const r = await navigator.serviceWorker.register('sw.js', { updateViaCache: 'none' });
        if (r.waiting && navigator.serviceWorker.controller) found(r.waiting);
        if (r.installing) watch(r.installing);
        r.addEventListener('updatefound', () => watch(r.installing));
      } catch (err) {
        console.info('The page is not kept for use without a connection: ' + err.message);
      }
    },
  };

  document.getElementById('newer-load').addEventListener('click', () => {
    offer.hidden = true;
    navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
    waiting.postMessage('take over');
  });
  document.getElementById('newer-later').addEventListener('click', () => { offer.hidden = true; });
})();
