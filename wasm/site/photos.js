// Opens photos: a chosen file is made no larger than it needs to be, kept in this
// browser, and its pixels are given to the program. It goes nowhere else.
'use strict';

(() => {
  const MOST = 1600; // pixels along the longer side: 0.2 mm each on a block of 12 in
  const DAY = 86400e3, UNNAMED = 'unthreaded.unnamed-photos'; // ms; since when, by id

  async function pixels(file) {
    const whole = await createImageBitmap(file, { imageOrientation: 'from-image' });
    const scale = Math.min(1, MOST / Math.max(whole.width, whole.height));
    const w = Math.max(1, Math.round(whole.width * scale)), h = Math.max(1, Math.round(whole.height * scale));
    const canvas = document.createElement('canvas');
    canvas.width = w;
    canvas.height = h;
    const pen = canvas.getContext('2d', { willReadFrequently: true });
    pen.drawImage(whole, 0, 0, w, h);
    whole.close();
    return { w, h, canvas, data: pen.getImageData(0, 0, w, h).data };
  }

  // What was just taken can be shown before it is kept.
  const taken = new Map();
  const shown = new WeakMap(); // element -> id of its photo

  const give = (name, id, p) => unthreaded.photo && unthreaded.photo(name, id, p.w, p.h, p.data, '');
  // What a photo fails by is a kind, as for the store.
  const fail = (name, id, kind) => unthreaded.photo && unthreaded.photo(name, id, 0, 0, null, kind);

  unthreaded.photos = {
    // take opens a chosen file for the control of that name.
    async take(name, file) {
      const id = crypto.randomUUID ? crypto.randomUUID() : String(Date.now()) + String(Math.random()).slice(2);
      let p;
      taken.set(id, file);
      try {
        p = await pixels(file);
      } catch {
        taken.delete(id);
        fail(name, id, 'no-picture');
        return;
      }
      give(name, id, p);
      try {
        const smaller = await new Promise((resolve) => p.canvas.toBlob(resolve, 'image/jpeg', 0.9));
        await unthreaded.store.keepPhoto(id, smaller);
      } catch {
        fail(name, id, 'unkept');
      }
    },
    // show puts a photo into an element, once.
    async show(el, id) {
      if (shown.get(el) === id) return;
      shown.set(el, id);
      el.removeAttribute('src');
      if (!id) return;
      try {
        const file = taken.get(id) || await unthreaded.store.photo(id);
        if (shown.get(el) !== id) return;
        if (!file) { el.alt = unthreaded.say('site.photos.gone'); return; }
        const url = URL.createObjectURL(file);
        el.onload = el.onerror = () => URL.revokeObjectURL(url);
        el.src = url;
      } catch {
        el.alt = unthreaded.say('site.photos.not-shown');
      }
    },
    // sweep deletes the photos that no document has named for a day: those of blocks and
    // notes that were deleted. One that was just taken, here or in another tab, is
    // waited for, and the text of a damaged document counts too.
    async sweep(now = Date.now()) {
      try {
        const since = JSON.parse(localStorage.getItem(UNNAMED)) || {};
        const next = await unthreaded.store.run(['things', 'photos'], 'readwrite', (at, get, done) =>
          get(at('photos').getAllKeys(), (ids) => ids.length && get(at('things').getAll(), (docs) => {
            const unnamed = ids.filter((id) => !docs.some((doc) => doc.includes(id)));
            const waits = unnamed.filter((id) => !(now - since[id] > DAY));
            for (const id of unnamed) if (!waits.includes(id)) at('photos').delete(id);
            done(Object.fromEntries(waits.map((id) => [id, since[id] ?? now])));
          })));
        localStorage.setItem(UNNAMED, JSON.stringify(next || {}));
      } catch { /* the next visit tries again */ }
    },
    async fetch(id) {
      try {
        const file = await unthreaded.store.photo(id);
        if (!file) { fail('', id, 'gone'); return; }
        give('', id, await pixels(file));
      } catch (err) {
        fail('', id, err.kind || 'no-picture');
      }
    },
  };
})();
