// The transactions that a backup needs. Its form, its checks and what is wanted of it are
// the program's; here records are read, staged in a store of their own, and put in
// place in one transaction: all of it or, where that fails, nothing. What had to give way
// waits in the store 'undo' until the next visit, under the number of the restore.
'use strict';

(() => {
  const { store } = unthreaded;
  const KEPT = ['settings', 'traces', 'summaries', 'things', 'photos'];
  const FLAG = 'unthreaded.restored'; // tells the page that is loaded next what was done

  // When the last backup was made is known of this browser, not of the work.
  const care = (name, key) => name === 'things' && key[0] === 'backup';

  const base64 = (blob) => new Promise((resolve, reject) => {
    const r = new FileReader();
    r.onload = () => resolve(r.result.slice(r.result.indexOf(',') + 1));
    r.onerror = () => reject(unthreaded.failed('photo-unread', r.error));
    r.readAsDataURL(blob);
  });
  const blob = (type, text) => new Blob([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))], { type });

  // A record crosses over as texts: kind, id, document, summary, type, base64.
  const key = (part, [kind, id]) => (part === 'things' ? [kind, id] : id);

  // entries makes of a record what is stored: [store, key, value] each.
  function entries(part, row) {
    const k = key(part, row), [, , doc, summary, type, bytes] = row;
    switch (part) {
      case 'traces': return [['traces', k, doc], ['summaries', k, summary]];
      case 'photos': return [['photos', k, blob(type, bytes)]];
    }
    return [[part, k, doc]];
  }

  const read = (part, keys) => store.run(part === 'traces' ? ['traces', 'summaries'] : [part], 'readonly', (at, get, done) => {
    const out = keys.map(() => ({}));
    keys.forEach((k, i) => {
      get(at(part).get(k), (v) => { out[i].value = v; });
      if (part === 'traces') get(at('summaries').get(k), (v) => { out[i].summary = v; });
    });
    done(out);
  });

  // each goes through a store within its transaction.
  function each(at, name, use, then) {
    const request = at(name).openCursor();
    request.onsuccess = () => {
      const c = request.result;
      if (!c) { then(); return; }
      use(c);
      c.continue();
    };
  }

  // last gives the number of the last restore that can be taken back, or 0.
  const last = (at, get, then) => get(at('undo').getAllKeys(), (all) => then(all.reduce((n, k) => Math.max(n, +k[0] || 0), 0)));

  unthreaded.restore = {
    // names gives the names of all records of a part, as [kind, id].
    names: (part) => store.run([part], 'readonly', (at, get, done) =>
      get(at(part).getAllKeys(), (keys) => done(keys.map((k) => (part === 'things' ? k : ['', k]))))),
    // get gives records by their names, without those that are gone.
    async get(part, names) {
      const out = [];
      for (const [i, { value, summary }] of (await read(part, names.map((n) => key(part, n)))).entries()) {
        if (value === undefined) continue;
        const rest = part === 'photos' ? ['', '', value.type, await base64(value)] : [String(value), String(summary ?? ''), '', ''];
        out.push([...names[i], ...rest]);
      }
      return out;
    },
    // stage adds records, each with its part first, to those that are to be put in place.
    stage: (rows) => store.run(['staged'], 'readwrite', (at) => {
      for (const [part, ...row] of rows) for (const [name, k, v] of entries(part, row)) at('staged').put(v, [name, k]);
    }),
    unstage: () => store.run(['staged'], 'readwrite', (at) => { at('staged').clear(); }),
    // swap puts what is staged in place; with replace all else goes. It tells whether all was
    // the same before, and whether a restore before it can be taken back too.
    swap: (replace) => store.run([...KEPT, 'staged', 'undo'], 'readwrite', (at, get, done) => last(at, get, (before) => {
      const n = before + 1;
      let touched = 0;
      const put = () => each(at, 'staged', (c) => {
        const [name, k] = c.key, v = c.value;
        touched++;
        get(at('undo').getKey([n, name, k]), (moved) => {
          if (moved) { at(name).put(v, k); return; }
          get(at(name).get(k), (old) => {
            at('undo').put(old === undefined ? {} : { old }, [n, name, k]);
            at(name).put(v, k);
          });
        });
      }, () => {
        at('staged').clear();
        done([!touched, before > 0]);
      });
      const clearOut = (names) => {
        if (!names.length) { put(); return; }
        each(at, names[0], (c) => {
          if (care(names[0], c.key)) return;
          touched++;
          at('undo').put({ old: c.value }, [n, names[0], c.key]);
          c.delete();
        }, () => clearOut(names.slice(1)));
      };
      clearOut(replace ? KEPT : []);
    })),
    // back undoes the last restore: what was put in place goes, what gave way comes
    // back, what was made since stays. It tells whether the one before it can be undone, or null
    // where there is none to undo.
    back: () => store.run([...KEPT, 'undo'], 'readwrite', (at, get, done) => last(at, get, (n) => {
      if (!n) { done(null); return; }
      each(at, 'undo', (c) => {
        const [of, name, k] = c.key;
        if (of !== n) return;
        if ('old' in c.value) at(name).put(c.value.old, k);
        else at(name).delete(k);
        c.delete();
      }, () => done(n > 1));
    })),
    // again loads the page anew, so that every place shows what is kept now; outcome
    // tells what was done just before that, once.
    again(outcome) {
      try { sessionStorage.setItem(FLAG, outcome); } catch { /* then it is not said */ }
      location.reload();
    },
    outcome() {
      try {
        const said = sessionStorage.getItem(FLAG) || '';
        sessionStorage.removeItem(FLAG);
        return said;
      } catch {
        return '';
      }
    },
  };

  // A chosen file is checked at once.
  addEventListener('change', (e) => {
    const file = e.target.matches('[data-backup]') && e.target.files[0];
    if (!file || !unthreaded.checkBackup) return;
    unthreaded.checkBackup(file);
    e.target.value = '';
  });
})();
