// Keeps traces in IndexedDB. Every function returns a promise; an error carries a
// message for the person.
'use strict';

(() => {
  // 2 added things and photos, 3 what a restore needs; what is there stays as it is.
  const NAME = 'unthreaded', VERSION = 3;
  let opening = null;

  function open() {
    opening = opening || new Promise((resolve, reject) => {
      if (!window.indexedDB) { reject(new Error(unthreaded.say('site.store.none'))); return; }
      const request = indexedDB.open(NAME, VERSION);
      request.onupgradeneeded = () => {
        const db = request.result;
        for (const name of ['traces', 'summaries', 'bin', 'settings', 'things', 'photos', 'staged', 'undo']) {
          if (!db.objectStoreNames.contains(name)) db.createObjectStore(name);
        }
      };
      request.onblocked = () => reject(new Error(unthreaded.say('site.store.older-tab')));
      request.onerror = () => reject(request.error);
      request.onsuccess = () => {
        const db = request.result;
        db.onversionchange = () => { db.close(); opening = null; };
        db.onclose = () => { opening = null; };
        resolve(db);
      };
    }).catch((err) => { opening = null; throw plain(err); });
    return opening;
  }

  function plain(err) {
    if (err && err.name === 'QuotaExceededError') return new Error(unthreaded.say('site.store.full'));
    if (err && (err.name === 'SecurityError' || err.name === 'InvalidStateError')) {
      return new Error(unthreaded.say('site.store.not-let'));
    }
    if (err && err.name === 'VersionError') return new Error(unthreaded.say('site.store.newer-tab'));
    return err instanceof Error ? err : new Error(String(err && err.message || err));
  }

  // run does work on stores in one transaction; it is kept whole or not at all.
  async function run(stores, mode, work) {
    const db = await open();
    return new Promise((resolve, reject) => {
      const tx = db.transaction(stores, mode, { durability: 'strict' });
      let result;
      const get = (request, then) => { request.onsuccess = () => then(request.result); };
      tx.oncomplete = () => resolve(result);
      tx.onabort = () => reject(plain(tx.error));
      tx.onerror = () => {};
      try {
        work((name) => tx.objectStore(name), get, (value) => { result = value; });
      } catch (err) {
        reject(plain(err));
        tx.abort();
      }
    });
  }

  // The bin holds a deleted trace and its summary as one entry.
  unthreaded.store = {
    run,
    // newest gives n summaries, those with the last names among the ones before a name
    // (names begin with the time), and the first of these names if there are more.
    newest: (n, before) => run(['summaries'], 'readonly', (at, get, done) => {
      get(at('summaries').getAllKeys(before ? IDBKeyRange.upperBound(before, true) : null), (keys) => {
        if (!keys.length) { done([[], '']); return; }
        const first = Math.max(0, keys.length - n);
        get(at('summaries').getAll(IDBKeyRange.bound(keys[first], keys[keys.length - 1])), (docs) => done([docs, first ? keys[first] : '']));
      });
    }),
    get: (id) => run(['traces'], 'readonly', (at, get, done) => get(at('traces').get(id), (doc) => done(doc ?? null))),
    put: (id, doc, summary) => run(['traces', 'summaries'], 'readwrite', (at) => {
      at('traces').put(doc, id);
      at('summaries').put(summary, id);
    }),
    // putSummary renews the summary of a trace that is still kept.
    putSummary: (id, summary) => run(['summaries'], 'readwrite', (at, get) => {
      get(at('summaries').get(id), (old) => { if (old !== undefined) at('summaries').put(summary, id); });
    }),
    bin: (id) => run(['traces', 'summaries', 'bin'], 'readwrite', (at, get) => {
      get(at('traces').get(id), (doc) => get(at('summaries').get(id), (summary) => {
        if (doc === undefined) return;
        at('bin').put({ doc, summary }, id);
        at('traces').delete(id);
        at('summaries').delete(id);
      }));
    }),
    restore: (id) => run(['traces', 'summaries', 'bin'], 'readwrite', (at, get) => {
      get(at('bin').get(id), (entry) => {
        if (!entry) return;
        at('traces').put(entry.doc, id);
        at('summaries').put(entry.summary, id);
        at('bin').delete(id);
      });
    }),
    // emptyBin ends the chance to take back what the visit before deleted or, unless
    // that was a moment ago, restored.
    emptyBin: (restored) => run(['bin', 'staged', 'undo'], 'readwrite', (at) => {
      for (const name of restored ? ['bin', 'staged'] : ['bin', 'staged', 'undo']) at(name).clear();
    }),
    settings: () => run(['settings'], 'readonly', (at, get, done) => get(at('settings').get('settings'), (doc) => done(doc ?? ''))),
    putSettings: (doc) => run(['settings'], 'readwrite', (at) => { at('settings').put(doc, 'settings'); }),
    // Things are documents by kind and id; each comes as [kind, id, doc].
    things: () => run(['things'], 'readonly', (at, get, done) => {
      get(at('things').getAllKeys(), (keys) => get(at('things').getAll(), (docs) => {
        done(keys.map((key, i) => [key[0], key[1], docs[i]]));
      }));
    }),
    keep: (kind, id, doc) => run(['things'], 'readwrite', (at) => { at('things').put(doc, [kind, id]); }),
    discard: (kind, id) => run(['things'], 'readwrite', (at) => { at('things').delete([kind, id]); }),
    // Photos are files of pictures.
    photo: (id) => run(['photos'], 'readonly', (at, get, done) => get(at('photos').get(id), (file) => done(file ?? null))),
    keepPhoto: (id, file) => run(['photos'], 'readwrite', (at) => { at('photos').put(file, id); }),
    persist: async () => {
      const s = navigator.storage;
      if (!s || !s.persist) return false;
      return (await s.persisted()) || s.persist();
    },
    persisted: async () => !!(navigator.storage && navigator.storage.persisted && await navigator.storage.persisted()),
  };

  // The journal holds a trace from the moment it ends until the store has it, in
  // storage that is written at once: a page that is closed, crashes or loses its
  // graphics in between loses nothing.
  const PREFIX = 'unthreaded.journal.';
  function readEntry(text) {
    try {
      const entry = JSON.parse(text);
      return typeof entry.doc === 'string' && typeof entry.summary === 'string' ? entry : null;
    } catch {
      return null;
    }
  }
  unthreaded.journal = {
    write(id, doc, summary) {
      try { localStorage.setItem(PREFIX + id, JSON.stringify({ doc, summary })); } catch { /* full or denied: the store may still take it */ }
    },
    done(id) {
      try { localStorage.removeItem(PREFIX + id); } catch { /* nothing was written then */ }
    },
    // recover puts what was left behind into the store and returns how many entries
    // cannot be read; these stay where they are.
    async recover() {
      let keys = [], damaged = 0;
      try { keys = Object.keys(localStorage).filter((k) => k.startsWith(PREFIX)); } catch { return 0; }
      for (const key of keys) {
        const entry = readEntry(localStorage.getItem(key));
        if (!entry) { damaged++; continue; }
        await unthreaded.store.put(key.slice(PREFIX.length), entry.doc, entry.summary);
        localStorage.removeItem(key);
      }
      return damaged;
    },
  };
})();
