// Begins the second program when the first job comes, hands it jobs and hears of them. Where
// the browser lets nothing work beside the page, the program runs in the page itself and
// gives control back between the parts of a job.
'use strict';

(() => {
  const PATIENCE = 120000; // ms for it to be loaded on a slow line
  const LOCK = 'unthreaded.work.';
  let hand = null; // what does the jobs: { send(doc), end() }
  let count = 0;
  let version = '';

  // drawn is settled once the page has been seen: nothing is to slow that down.
  let seen;
  const drawn = new Promise((resolve) => { seen = resolve; });

  // heard takes what the hand says; from one that was ended nothing is heard any more.
  function hear(from, m) {
    if (from !== hand) return;
    if (m.alive) from.alive();
    else if (m.ready) from.ready();
    else if (m.doc) unthreaded.work.done(m.doc);
    else if (m.fault) lose(from, m.fault);
    else unthreaded.work.told(m.share);
  }

  function lose(from, why) {
    if (from !== hand) return;
    console.info('The program beside the page has ended: ' + why);
    unthreaded.work.end();
    unthreaded.work.lost();
  }

  // held keeps jobs until the program is ready for them.
  function held() {
    const h = { waiting: [], post: null, end() {} };
    h.send = (doc) => (h.post ? h.post(doc) : h.waiting.push(doc));
    h.to = (post) => () => {
      h.post = post;
      for (const doc of h.waiting.splice(0)) post(doc);
    };
    return h;
  }

  function beside() {
    const h = held();
    const name = LOCK + (unthreaded.tabs ? unthreaded.tabs.own : '') + '.' + ++count;
    const worker = new Worker('worker.js?v=' + version, { name });
    const late = setTimeout(() => lose(h, 'it does not begin'), PATIENCE);
    h.ready = () => {
      clearTimeout(late);
      h.to((doc) => worker.postMessage(doc, [doc.buffer]))();
    };
    // The browser lets its lock go when it is gone, which no event tells.
    h.alive = () => navigator.locks.request(name, () => lose(h, 'it is gone'));
    h.end = () => {
      clearTimeout(late);
      worker.terminate();
    };
    worker.onmessage = (e) => hear(h, e.data);
    worker.onerror = (e) => {
      e.preventDefault();
      lose(h, e.message || 'it cannot be loaded');
    };
    return h;
  }

  // within runs the program in the page. To end it is to have it give up at its next rest.
  function within() {
    const h = held();
    let alive = true;
    h.end = () => { alive = false; };
    const program = {
      told(share) {
        if (alive) hear(h, { share });
        return alive;
      },
      done: (doc) => hear(h, { doc }),
      ready: () => hear(h, { ready: true }),
      rest: 1,
    };
    h.ready = h.to((doc) => program.take(doc));
    (async () => {
      const go = new Go();
      const { instance } = await WebAssembly.instantiateStreaming(fetch('work.wasm?v=' + version), go.importObject);
      globalThis.unthreadedWork = program; // which the program takes as it begins
      await go.run(instance);
    })().catch((err) => hear(h, { fault: err.message }));
    unthreaded.work.aside();
    return h;
  }

  unthreaded.work = {
    seen: (v) => {
      version = v;
      seen();
    },
    // send has a job done; the program sets told, done, lost and aside before.
    async send(doc) {
      await drawn;
      if (!hand) {
        try {
          hand = beside();
        } catch {
          hand = within();
        }
      }
      hand.send(doc);
    },
    end() {
      if (hand) hand.end();
      hand = null;
    },
  };
})();
