// Takes a backup in. It is first read to its end and set beside what is here; what is
// wanted of it is then staged in a store of its own, and one transaction puts it in
// place: all of it or, where that fails, nothing. What had to give way waits in the
// store 'undo' until the next visit, under the number of the restore.
'use strict';

(() => {
  const { store, backup } = unthreaded;
  const { PARTS, AT_ONCE, keys, some, ours } = backup;
  const KEPT = ['settings', 'traces', 'summaries', 'things', 'photos'];
  const FLAG = 'unthreaded.restored'; // tells the page that is loaded next what was done
  let chosen = null; // the file that was checked
  let covers = null; // when it was made, and whether it holds every trace there is here

  const named = (key) => JSON.stringify(key);
  const here = async () => Object.fromEntries(await Promise.all(
    PARTS.map(async (part) => [part, new Set((await keys(part)).map(named))])));

  // compare tells how a record of the file stands to the one here: 'new', 'same',
  // 'other', or 'mend' where the one here is damaged and that of the file is not.
  async function compare(known, [[name, key, v]]) {
    if (!known[name].has(named(key))) return 'new';
    const [{ value: old }] = await some(name, [key]);
    if (v instanceof Blob) return (await backup.base64(old)) === (await backup.base64(v)) ? 'same' : 'other';
    if (old === v) return 'same';
    return typeof backup.value(old) === 'string' && typeof backup.value(v) !== 'string' ? 'mend' : 'other';
  }

  // check reads a file to its end and tells what it holds, and how its traces stand to
  // those here. Nothing is changed.
  async function check(file, recordForm, progress) {
    chosen = null;
    const known = await here(), traces = { new: 0, same: 0, other: 0, mend: 0 };
    const missing = { things: 0, photos: 0 };
    let done = 0;
    const found = await backup.read(file, recordForm, async (part, recs) => {
      if (part === 'traces') traces[await compare(known, recs)]++;
      if (part in missing && !ours(part, recs[0][1]) && ['new', 'mend'].includes(await compare(known, recs))) missing[part]++;
      if (++done % AT_ONCE === 0) progress(done);
    });
    chosen = file;
    covers = { made: found.made, whole: known.traces.size === traces.same + traces.mend };
    return { ...found, kept: traces, missing, here: known.traces.size };
  }

  const clear = (...names) => store.run(names, 'readwrite', (at) => { for (const name of names) at(name).clear(); });

  // stage writes what is wanted of the chosen file into the store for that.
  async function stage(replace, recordForm, progress) {
    const known = replace ? null : await here();
    let group = [], done = 0;
    const flush = () => store.run(['staged'], 'readwrite', (at) => {
      for (const [name, key, v] of group) at('staged').put(v, [name, key]);
    });
    await clear('staged');
    await backup.read(chosen, recordForm, async (part, recs) => {
      if (ours(part, recs[0][1])) return;
      if (replace || ['new', 'mend'].includes(await compare(known, recs))) group.push(...recs);
      if (group.length < AT_ONCE) return;
      await flush();
      progress(done += group.length);
      group = [];
    });
    await flush();
  }

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
  const last = (at, get, then) => get(at('undo').getAllKeys(), (all) => then(all.reduce((n, key) => Math.max(n, +key[0] || 0), 0)));

  // swap puts what is staged in place, in one transaction, and tells what can be taken
  // back then.
  const swap = (replace) => store.run([...KEPT, 'staged', 'undo'], 'readwrite', (at, get, done) => last(at, get, (before) => {
    const n = before + 1;
    let touched = 0;
    const put = () => each(at, 'staged', (c) => {
      const [name, key] = c.key, v = c.value;
      touched++;
      get(at('undo').getKey([n, name, key]), (moved) => {
        if (moved) { at(name).put(v, key); return; }
        get(at(name).get(key), (old) => {
          at('undo').put(old === undefined ? {} : { old }, [n, name, key]);
          at(name).put(v, key);
        });
      });
    }, () => {
      at('staged').clear();
      done({ same: !touched, more: before > 0 });
    });
    const clearOut = (names) => {
      if (!names.length) { put(); return; }
      each(at, names[0], (c) => {
        if (ours(names[0], c.key)) return;
        touched++;
        at('undo').put({ old: c.value }, [n, names[0], c.key]);
        c.delete();
      }, () => clearOut(names.slice(1)));
    };
    clearOut(replace ? KEPT : []);
  }));

  // again loads the page anew, so that every place shows what is kept now.
  function again(outcome) {
    try { sessionStorage.setItem(FLAG, JSON.stringify(outcome)); } catch { /* then it is not said */ }
    location.reload();
  }

  unthreaded.restore = {
    check,
    async run(replace, recordForm, progress) {
      let swapped;
      try {
        await stage(replace, recordForm, progress);
        swapped = await swap(replace);
      } catch (err) {
        await clear('staged').catch(() => {});
        throw err;
      }
      again({ replaced: replace, ...covers, ...(replace && { whole: true }), ...swapped });
    },
    // back undoes the last restore: what was put in place goes, what gave way comes
    // back, what was made since stays. Then the one before it can be undone.
    async back() {
      const more = await store.run([...KEPT, 'undo'], 'readwrite', (at, get, done) => last(at, get, (n) => {
        each(at, 'undo', (c) => {
          const [of, name, key] = c.key;
          if (of !== n) return;
          if ('old' in c.value) at(name).put(c.value.old, key);
          else at(name).delete(key);
          c.delete();
        }, () => done(n > 1));
      }));
      again({ undone: true, more });
    },
    // outcome tells what was done just before the page was loaded, once.
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
