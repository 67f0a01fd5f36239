// Keeps traces in IndexedDB. Every function returns a promise; an error has a kind, which the
// message site.store.KIND tells the person.
'use strict';

(() => {
  // 2 added things and photos, 3 what a restore needs, 4 the journal; what is there stays
  // as it is.
  const NAME = 'unthreaded', VERSION = 4;
  const PATIENCE = 8000; // ms until a storage that does not answer is said to be off
  const { tabs } = unthreaded;
  let opening = null;

  // failed is an error of a kind. What the browser says of it goes to its console, for
  // whoever mends the page.
  function failed(kind, err) {
    if (err) console.info(`${kind}: ${err.message || err}`);
    return Object.assign(new Error(kind), { kind });
  }
  unthreaded.failed = failed;

  function open() {
    opening = opening || new Promise((resolve, reject) => {
      if (!window.indexedDB) { reject(failed('none')); return; }
      setTimeout(() => reject(failed('no-answer')), PATIENCE);
      const request = indexedDB.open(NAME, VERSION);
      request.onupgradeneeded = () => {
        const db = request.result;
        for (const name of ['traces', 'summaries', 'bin', 'settings', 'things', 'photos', 'staged', 'undo', 'journal']) {
          if (!db.objectStoreNames.contains(name)) db.createObjectStore(name);
        }
      };
      request.onblocked = () => reject(failed('older-tab'));
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

  // By the names of errors (IndexedDB, W3C).
  const KINDS = { QuotaExceededError: 'full', SecurityError: 'not-let', InvalidStateError: 'not-let', VersionError: 'newer-tab' };
  function plain(err) {
    if (err && err.kind) return err;
    return failed(KINDS[err && err.name] || 'unknown', err || '-');
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

  // pieces are the keys of what a tab has written down of something in hand.
  const pieces = (tab, id) => IDBKeyRange.bound([tab, id], [tab, id, []]);

  // What this tab last read or wrote of a thing, and of the settings: another text there was
  // written by another tab.
  const seen = new Map();
  let seenSettings = '';

  // merged puts those of the settings that changed since this tab saw them last into the ones
  // that are kept now.
  function merged(now, mine) {
    try {
      const before = JSON.parse(seenSettings), all = JSON.parse(now), own = JSON.parse(mine);
      for (const k of Object.keys(own)) if (JSON.stringify(own[k]) !== JSON.stringify(before[k])) all[k] = own[k];
      return JSON.stringify(all);
    } catch {
      return mine; // there were none, or damaged ones
    }
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
    // put keeps a trace, and takes what a tab has written down of it out of the journal.
    put: (id, doc, summary, tab = tabs.own) => run(['traces', 'summaries', 'journal'], 'readwrite', (at) => {
      at('traces').put(doc, id);
      at('summaries').put(summary, id);
      at('journal').delete(pieces(tab, id));
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
    // restore tells whether the trace is there again.
    restore: (id) => run(['traces', 'summaries', 'bin'], 'readwrite', (at, get, done) => {
      get(at('bin').get(id), (entry) => {
        get(at('traces').getKey(id), (there) => done(!!entry || there !== undefined));
        if (!entry) return;
        at('traces').put(entry.doc, id);
        at('summaries').put(entry.summary, id);
        at('bin').delete(id);
      });
    }),
    // emptyBin ends the chance to take back what the visit before deleted or, unless
    // that was a moment ago, restored; but not while another tab may have promised it.
    async emptyBin(restored) {
      if ((await tabs.living()).some((tab) => tab !== tabs.own)) return;
      await run(['bin', 'staged', 'undo'], 'readwrite', (at) => {
        for (const name of restored ? ['bin', 'staged'] : ['bin', 'staged', 'undo']) at(name).clear();
      });
    },
    // makeRoom gives up all that could be taken back.
    makeRoom: () => run(['bin', 'staged', 'undo'], 'readwrite', (at) => { for (const name of ['bin', 'staged', 'undo']) at(name).clear(); }),
    settings: () => run(['settings'], 'readonly', (at, get, done) => get(at('settings').get('settings'), (doc) => done(seenSettings = doc ?? ''))),
    // putSettings keeps what was changed in this tab; what another changed stays.
    putSettings: (doc) => run(['settings'], 'readwrite', (at, get) => {
      get(at('settings').get('settings'), (now) => {
        at('settings').put(merged(now, doc), 'settings');
        seenSettings = doc;
      });
    }),
    // Things are documents by kind and id; each comes as [kind, id, doc].
    things: () => run(['things'], 'readonly', (at, get, done) => {
      get(at('things').getAllKeys(), (keys) => get(at('things').getAll(), (docs) => {
        keys.forEach((key, i) => seen.set(key.join('.'), docs[i]));
        done(keys.map((key, i) => [key[0], key[1], docs[i]]));
      }));
    }),
    // keep keeps a thing, unless another tab has changed it: then it gives that text and
    // changes nothing, but with force.
    keep: (kind, id, doc, force) => run(['things', 'journal'], 'readwrite', (at, get, done) => {
      const name = kind + '.' + id;
      get(at('things').get([kind, id]), (now) => {
        const theirs = !force && now !== undefined && now !== doc && now !== seen.get(name);
        if (!theirs) {
          at('things').put(doc, [kind, id]);
          at('journal').delete(pieces(tabs.own, name));
        }
        seen.set(name, theirs ? now : doc);
        done(theirs ? now : '');
      });
    }),
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

  // The journal holds what is in hand, piece by piece, as it comes: [tab, id, number]. A
  // page that goes down loses only what came after.
  // Beside it a trace, or a thing that is kept as the page goes, stands in localStorage until
  // the store has it: that is written at once, even then.
  const PREFIX = 'unthreaded.journal.';
  function readEntry(text) {
    try {
      const entry = JSON.parse(text);
      return typeof entry.doc === 'string' ? entry : null;
    } catch {
      return null;
    }
  }
  const set = (name, entry) => {
    try { localStorage.setItem(PREFIX + name, JSON.stringify({ ...entry, tab: tabs.own })); } catch { /* full or denied: the store may still take it */ }
  };
  const drop = (name) => { try { localStorage.removeItem(PREFIX + name); } catch { /* nothing was written then */ } };

  unthreaded.journal = {
    write: (id, doc, summary) => set(id, { doc, summary }),
    done: drop,
    // thing stands for a thing until it is kept.
    thing: (kind, id, doc) => set('thing.' + kind + '.' + id, { kind, id, doc }),
    thingDone: (kind, id) => drop('thing.' + kind + '.' + id),
    jot: (id, n, doc) => run(['journal'], 'readwrite', (at) => { at('journal').put(doc, [tabs.own, id, n]); })
      .catch(() => { /* what is in hand is kept, or not, when it ends; that is said then */ }),
    unjot: (id, tab = tabs.own) => run(['journal'], 'readwrite', (at) => { at('journal').delete(pieces(tab, id)); }).catch(() => {}),
    // left gives what tabs that are no more left behind: [name, kind, id, doc, summary] from
    // localStorage, a damaged one with its name only, and [tab, id, pieces].
    async left() {
      const living = await tabs.living(), gone = (tab) => !living.includes(tab) || tab === tabs.own;
      const whole = [];
      try {
        for (const key of Object.keys(localStorage).filter((k) => k.startsWith(PREFIX))) {
          const name = key.slice(PREFIX.length), e = readEntry(localStorage.getItem(key));
          if (!e) whole.push([name, '', '', '', '']);
          else if (gone(e.tab)) whole.push([name, e.kind || '', e.kind ? e.id : name, e.doc, e.summary || '']);
        }
      } catch { /* denied: nothing was written there */ }
      const parts = await run(['journal'], 'readonly', (at, get, done) => {
        get(at('journal').getAllKeys(), (keys) => get(at('journal').getAll(), (docs) => {
          const byName = new Map();
          keys.forEach(([tab, id], i) => {
            if (!gone(tab) || tab === tabs.own) return;
            const name = JSON.stringify([tab, id]);
            if (!byName.has(name)) byName.set(name, [tab, id, []]);
            byName.get(name)[2].push(docs[i]);
          });
          done([...byName.values()]);
        }));
      });
      return [whole, parts];
    },
  };
})();
