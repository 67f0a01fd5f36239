// Starts the program: puts its canvas into the page, shows how far loading has
// come, and says in words what is missing when it cannot run.
'use strict';

(() => {
  const root = document.documentElement;
  const say = unthreaded.say;
  const host = document.getElementById('cloth');
  const strip = document.getElementById('strip');
  const text = document.getElementById('loading-text');
  const QUIET = 4000; // ms
  const bar = document.getElementById('loading-bar');

  const { fault } = unthreaded;

  // Ebitengine sizes its canvas by body.clientWidth and clientHeight and puts it at
  // the end of the body. Here it lives in the host element, at the host's size in
  // device pixels: the getters below shadow the body's own for the program.
  const pixels = (side) => Math.max(1, Math.round(host.getBoundingClientRect()[side] * devicePixelRatio));
  function shim() {
    Object.defineProperty(document.body, 'clientWidth', { configurable: true, get: () => pixels('width') });
    Object.defineProperty(document.body, 'clientHeight', { configurable: true, get: () => pixels('height') });
    const adopt = () => {
      const canvas = document.querySelector('body > canvas');
      if (!canvas) return;
      host.append(canvas);
      canvas.tabIndex = 0;
      canvas.setAttribute('role', 'img');
      return true;
    };
    if (!adopt()) {
      new MutationObserver((_, observer) => { if (adopt()) observer.disconnect(); }).observe(document.body, { childList: true });
    }
    let ratio = devicePixelRatio;
    const resized = () => {
      ratio = devicePixelRatio;
      dispatchEvent(new Event('resize'));
      if (unthreaded.resized) unthreaded.resized();
    };
    const watcher = new ResizeObserver(resized);
    watcher.observe(host);
    watcher.observe(strip); // it goes and comes with the places
    // A change of zoom or screen fires no event that can be relied on.
    (function watch() {
      if (devicePixelRatio !== ratio) resized();
      requestAnimationFrame(watch);
    })();
  }

  // measure returns width, height and height of the strip (CSS px), device pixels per
  // CSS pixel, the size of the screen (CSS px), and 1 if the first pointer is a finger.
  unthreaded.measure = () => {
    const r = host.getBoundingClientRect();
    return [r.width, r.height, strip.offsetHeight, devicePixelRatio, screen.width, screen.height, +matchMedia('(pointer: coarse)').matches];
  };

  // zone returns when the person's clock changed against UTC, as [from s, ahead s]: it
  // is looked at each week and, where it differs from the week before, each hour.
  unthreaded.zone = () => {
    const HOUR = 3600, WEEK = 168 * HOUR;
    const ahead = (t) => -60 * new Date(t * 1000).getTimezoneOffset();
    const end = Math.floor(Date.now() / 1000) + 52 * WEEK;
    let t = end - 522 * WEEK;
    t -= t % HOUR;
    const out = [[t, ahead(t)]];
    for (; t < end; t += WEEK) {
      if (ahead(t + WEEK) === ahead(t)) continue;
      for (let h = t + HOUR; h <= t + WEEK; h += HOUR) {
        if (ahead(h) !== ahead(h - HOUR)) out.push([h, ahead(h)]);
      }
    }
    return out;
  };

  let version = '';

  async function load() {
    const info = await (await fetch('build.json', { cache: 'no-cache' })).json();
    version = info.version;
    const response = await fetch('app.wasm?v=' + version);
    if (!response.ok) throw new Error(response.status);
    bar.max = info.wasmBytes;
    let got = 0;
    const counted = new TransformStream({
      transform(chunk, out) {
        got += chunk.byteLength;
        bar.value = got;
        out.enqueue(chunk);
      },
    });
    const go = new Go();
    const stream = new Response(response.body.pipeThrough(counted), { headers: { 'Content-Type': 'application/wasm' } });
    const { instance } = await WebAssembly.instantiateStreaming(stream, go.importObject);
    text.textContent = say('site.boot.threading');
    return go.run(instance);
  }

  unthreaded.ready = () => {
    root.dataset.state = 'ready';
    document.getElementById('loading').hidden = true;
    unthreaded.work.seen(version);
    // Keeping the page for use without a connection can wait until the hand is served.
    setTimeout(unthreaded.offline.start, QUIET);
  };

  function hasWebGL() {
    try { return !!document.createElement('canvas').getContext('webgl2'); } catch { return false; }
  }

  if (typeof WebAssembly !== 'object' || !WebAssembly.instantiateStreaming) {
    fault(say('site.boot.no-program'), say('site.boot.no-program-why'));
  } else if (!hasWebGL()) {
    fault(say('site.boot.no-cloth'), say('site.boot.no-cloth-why'));
  } else {
    shim();
    load().then(
      () => fault(say('site.boot.stopped'), say('site.boot.stopped-why')),
      (err) => {
        console.info('app.wasm: ' + err.message);
        fault(say('site.boot.not-loaded'), say('site.boot.not-loaded-why'));
      },
    );
  }

  // Ebitengine reloads the page when the graphics are lost (webglcontextlost); what
  // is in hand is kept first.
  const interrupt = () => unthreaded.send && unthreaded.send('interrupt', '', '');
  addEventListener('webglcontextlost', interrupt, true);
  for (const name of ['pagehide', 'freeze']) addEventListener(name, interrupt);
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) interrupt();
  });
  matchMedia('(prefers-reduced-motion: reduce)').addEventListener('change', (e) => {
    if (unthreaded.send) unthreaded.send('motion', e.matches ? 'no' : 'yes', '');
  });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', (e) => {
    if (unthreaded.send) unthreaded.send('dark', e.matches ? 'yes' : 'no', '');
  });
})();
