// Hears what goes wrong on the page, from the first script on: a file that is missing, a
// script or the program that stops. Each is said, with what to do.
'use strict';
window.unthreaded = window.unthreaded || {};

(() => {
  const root = document.documentElement;
  const TOLD = 4000; // ms that a script's fault may take to be told to a program that is starting
  const by = (id) => document.getElementById(id);
  const say = (key, ...args) => (unthreaded.say ? unthreaded.say(key, ...args) : '');
  let stopped = false;

  // kept says whether traces are kept only where that was looked at just now.
  async function kept() {
    try {
      await unthreaded.store.newest(1);
      return say('site.boot.kept');
    } catch {
      return say('site.boot.unknown');
    }
  }

  // fault stops the page and says why. What was in hand is in the journal, from which the
  // next visit takes it; a newer version that waits is offered.
  function fault(title, why) {
    if (stopped) return;
    stopped = true;
    root.dataset.state = 'fault';
    unthreaded.send = unthreaded.resized = null; // nobody is there to take a message
    by('loading').hidden = true;
    by('fault-title').textContent = title || by('fault-title').textContent;
    by('fault-text').textContent = why;
    by('fault').hidden = false;
    if (unthreaded.store) kept().then((text) => { by('fault-kept').textContent = text; });
    if (unthreaded.offline) unthreaded.offline.start();
  }
  unthreaded.fault = fault;

  const file = (el) => (el.src || el.href || '').replace(/^.*\//, '').replace(/\?.*$/, '');
  const shown = (then) => (document.readyState === 'loading' ? addEventListener('DOMContentLoaded', then) : then());

  // tell has the program say that something went wrong on the page; one that never starts is
  // said to be at fault. What it was stands on the browser's console.
  function tell() {
    const at = Date.now();
    (function soon() {
      if (stopped) return;
      if (unthreaded.send) unthreaded.send('fault', '', '');
      else if (Date.now() - at < TOLD) setTimeout(soon, 200);
      else fault(say('site.boot.not-loaded'), say('site.boot.not-loaded-why'));
    })();
  }

  addEventListener('error', (e) => {
    const { target } = e;
    if (target instanceof HTMLScriptElement) {
      shown(() => fault(say('site.boot.not-loaded'), say('site.boot.missing', file(target))));
    } else if (e.error instanceof WebAssembly.RuntimeError) {
      shown(() => fault(say('site.boot.stopped'), say('site.boot.stopped-why')));
    } else if (e.error) {
      shown(tell);
    }
  }, true);
  addEventListener('unhandledrejection', () => shown(tell));

  // Loading anew mends what is kept for use without a connection first: a file of it may be
  // damaged.
  shown(() => by('fault-reload').addEventListener('click', async () => {
    if (unthreaded.offline) await unthreaded.offline.mend();
    location.reload();
  }));
})();
