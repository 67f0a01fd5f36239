// Has the page kept on the device, so that it opens without a connection, and offers a
// new version when one has come.
'use strict';

(() => {
  const offer = document.getElementById('newer');
  let waiting = null;

  const faultOffer = document.getElementById('fault-newer');
  const PATIENCE = 5000; // ms for a worker to do what it was asked

  function found(worker) {
    waiting = worker;
    offer.hidden = faultOffer.hidden = false;
    worker.addEventListener('statechange', () => {
      if (worker.state === 'redundant' && waiting === worker) offer.hidden = faultOffer.hidden = true; // it cannot be taken any more
    });
  }

  function take() {
    offer.hidden = faultOffer.hidden = true;
    navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
    setTimeout(() => location.reload(), PATIENCE); // it was taken by another tab, maybe
    waiting.postMessage('take over');
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
        if (document.documentElement.dataset.state === 'fault') await r.update();
      } catch (err) {
        console.info('The page is not kept for use without a connection: ' + err.message);
      }
    },
    // mend has the worker fetch anew what it keeps; it gives up after a while.
    async mend() {
      const worker = 'serviceWorker' in navigator && navigator.serviceWorker.controller;
      if (!worker) return;
      const done = new MessageChannel();
      worker.postMessage('mend', [done.port2]);
      await Promise.race([
        new Promise((resolve) => { done.port1.onmessage = resolve; }),
        new Promise((resolve) => { setTimeout(resolve, PATIENCE); }),
      ]);
    },
  };

  for (const id of ['newer-load', 'fault-take']) document.getElementById(id).addEventListener('click', take);
  document.getElementById('newer-later').addEventListener('click', () => { offer.hidden = true; });
})();
