// Writes everything that is kept into one file, and reads such a file.
//
// The file is one JSON document with a line for each record, so that neither writing
// nor reading it needs the whole in memory:
//
//   {"backup":{"of":"unthreaded","form":1,"records":1,"made":"2026-11-25T06:00:00.000Z"},
//   "settings":[...],
//   "traces":[
//   {"id":"...","doc":{...},"summary":{...}},
//   ...
//   ],
//   "things":[...],
//   "photos":[...],
//   "end":{"counts":{"traces":312,...},"crc32":{"traces":"cbf43926",...}}}
//
// A document that JSON.stringify would write otherwise stands as a string, so that
// every record comes back with the same bytes. The sums are CRC-32 (as in PNG and
// zip, ISO 3309) over the lines of a part, without their commas and ends of line.
'use strict';

(() => {
  const FORM = 1;
  const PARTS = ['settings', 'traces', 'things', 'photos'];
  const AT_ONCE = 50; // records in one transaction of reading or staging
  const LONGEST = 1 << 28; // bytes of a line; a photo of 1600 pixels has 1 MB
  const { store } = unthreaded;

  const TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
    for (let k = 0; k < 8; k++) n = n & 1 ? 0xedb88320 ^ (n >>> 1) : n >>> 1;
    return n;
  });
  const crc = (sum, bytes) => {
    for (const b of bytes) sum = TABLE[(sum ^ b) & 255] ^ (sum >>> 8);
    return sum;
  };
  const hex = (sum) => (~sum >>> 0).toString(16).padStart(8, '0');
  const sums = () => Object.fromEntries(PARTS.map((p) => [p, { count: 0, crc: ~0 }]));

  // When the last backup was made is known of this browser, not of the work.
  const ours = (name, key) => name === 'things' && key[0] === 'backup';

  // value stands for a document in the file; text is its reverse.
  function value(doc) {
    try {
      const v = JSON.parse(doc);
      if (typeof v === 'object' && JSON.stringify(v) === doc) return v;
    } catch { /* a damaged document is kept as it is */ }
    return String(doc);
  }
  const text = (v) => (typeof v === 'string' ? v : JSON.stringify(v));

  // entry makes the line of a record, records its reverse: [store, key, value] each.
  async function entry(part, key, v, summary) {
    switch (part) {
      case 'traces': return { id: key, doc: value(v), summary: value(summary) };
      case 'things': return { kind: key[0], id: key[1], doc: value(v) };
      case 'photos': return { id: key, type: v.type, base64: await base64(v) };
    }
    return { id: key, doc: value(v) };
  }

  function records(part, e) {
    const named = typeof e.id === 'string' && e.id;
    if (!named || (part === 'things' && typeof e.kind !== 'string')) throw new Error('a record without a name');
    switch (part) {
      case 'traces': return [['traces', e.id, text(e.doc)], ['summaries', e.id, text(e.summary)]];
      case 'things': return [['things', [e.kind, e.id], text(e.doc)]];
      case 'photos': return [['photos', e.id, new Blob([Uint8Array.from(atob(e.base64), (c) => c.charCodeAt(0))], { type: e.type })]];
    }
    return [['settings', e.id, text(e.doc)]];
  }

  const base64 = (blob) => new Promise((resolve, reject) => {
    const r = new FileReader();
    r.onload = () => resolve(r.result.slice(r.result.indexOf(',') + 1));
    r.onerror = () => reject(new Error('a photo could not be read'));
    r.readAsDataURL(blob);
  });

  const keys = (name) => store.run([name], 'readonly', (at, get, done) => get(at(name).getAllKeys(), done));

  // some reads the values of some keys, and the summaries of traces beside them.
  const some = (part, some) => store.run(part === 'traces' ? ['traces', 'summaries'] : [part], 'readonly', (at, get, done) => {
    const out = some.map(() => ({}));
    some.forEach((key, i) => {
      get(at(part).get(key), (v) => { out[i].value = v; });
      if (part === 'traces') get(at('summaries').get(key), (v) => { out[i].summary = v; });
    });
    done(out);
  });

  // make writes the backup and hands it to the person. recordForm is the form in
  // which the program writes records, progress is told how many are done of how many.
  async function make(name, recordForm, progress) {
    const found = {};
    for (const part of PARTS) found[part] = (await keys(part)).filter((key) => !ours(part, key));
    const of = PARTS.reduce((n, part) => n + found[part].length, 0);
    const head = { of: 'unthreaded', form: FORM, records: recordForm, made: new Date().toISOString() };
    const coder = new TextEncoder(), sum = sums();
    let blobs = [], lines = ['{"backup":' + JSON.stringify(head) + ',\n'], done = 0;
    for (const part of PARTS) {
      lines.push('"' + part + '":[\n');
      for (let i = 0; i < found[part].length; i += AT_ONCE) {
        const group = found[part].slice(i, i + AT_ONCE);
        for (const [j, got] of (await some(part, group)).entries()) {
          if (got.value === undefined) continue; // deleted in the meantime
          const line = JSON.stringify(await entry(part, group[j], got.value, got.summary));
          lines.push((sum[part].count ? ',\n' : '') + line);
          sum[part].count++;
          sum[part].crc = crc(sum[part].crc, coder.encode(line));
        }
        blobs.push(new Blob(lines)); // which the browser may put on its disk
        lines = [];
        progress(done += group.length, of);
      }
      lines.push((sum[part].count ? '\n' : '') + '],\n');
    }
    lines.push('"end":' + JSON.stringify(ending(sum)) + '}\n');
    unthreaded.download(name, 'application/json', ...blobs, ...lines);
    return { made: Date.parse(head.made), ...ending(sum).counts };
  }

  const ending = (sum) => ({
    counts: Object.fromEntries(PARTS.map((p) => [p, sum[p].count])),
    crc32: Object.fromEntries(PARTS.map((p) => [p, hex(sum[p].crc)])),
  });

  // lines gives the lines of a file as bytes, one after the other, and whether each
  // came to its end.
  async function* lines(file) {
    const reader = file.stream().getReader();
    let parts = [], size = 0;
    for (;;) {
      const { done, value: chunk } = await reader.read();
      if (done) break;
      let from = 0;
      for (let to = chunk.indexOf(10); to >= 0; from = to + 1, to = chunk.indexOf(10, from)) {
        yield [join(parts, chunk.subarray(from, to)), true];
        parts = [];
        size = 0;
      }
      parts.push(chunk.slice(from));
      size += chunk.length - from;
      if (size > LONGEST) throw fault('damaged', 'a line is too long');
    }
    if (size) yield [join(parts, new Uint8Array(0)), false];
  }

  function join(parts, last) {
    if (!parts.length) return last;
    const whole = new Uint8Array(parts.reduce((n, p) => n + p.length, last.length));
    let at = 0;
    for (const p of [...parts, last]) { whole.set(p, at); at += p.length; }
    return whole;
  }

  // fault is an error whose kind the program puts into words: 'foreign' for a file
  // that is no backup, 'newer', 'damaged', or 'short' for one that was cut off.
  const fault = (kind, where) => Object.assign(new Error(where), { kind });

  // taker takes a file line by line and returns the records of each; it ends by
  // checking counts and sums.
  function taker(recordForm) {
    const decoder = new TextDecoder('utf-8', { fatal: true }), sum = sums();
    let head = null, part = '', end = null, n = 0;

    function heading(line) {
      const { of, form, records: written, made } = JSON.parse(line + '}').backup;
      if (of !== 'unthreaded' || !(form >= 1)) throw fault('foreign', 'line 1');
      if (form > FORM || written > recordForm) throw fault('newer', 'form ' + form + ', records ' + written);
      return { made: Date.parse(made) };
    }

    function line(bytes) {
      const body = bytes[bytes.length - 1] === 44 ? bytes.subarray(0, -1) : bytes; // a comma
      if (part && body.length === 1 && body[0] === 93) { part = ''; return null; } // "]"
      if (part) {
        sum[part].count++;
        sum[part].crc = crc(sum[part].crc, body);
        return [part, records(part, JSON.parse(decoder.decode(body)))];
      }
      const words = decoder.decode(body), begin = /^"(\w+)":\[$/.exec(words);
      if (n === 1) head = heading(words);
      else if (end) throw fault('damaged', 'something stands after the end');
      else if (begin && PARTS.includes(begin[1])) part = begin[1];
      else end = JSON.parse('{' + words).end;
      return null;
    }

    return {
      take(bytes, whole) {
        n++;
        try {
          return line(bytes);
        } catch (err) {
          throw err.kind ? err : fault(!head ? 'foreign' : whole ? 'damaged' : 'short', 'line ' + n);
        }
      },
      finish() {
        if (!head) throw fault('foreign', 'it is empty');
        if (!end) throw fault('short', 'after line ' + n);
        const wrong = PARTS.filter((p) => end.crc32[p] !== hex(sum[p].crc) || end.counts[p] !== sum[p].count);
        if (wrong.length) throw fault('damaged', wrong.join(', '));
        return { ...head, ...end.counts };
      },
    };
  }

  // read goes through a backup and hands each record to use, as a part and a list of
  // [store, key, value]. It fails on a file that is not wholly as it was written,
  // maybe not before its end.
  async function read(file, recordForm, use) {
    const t = taker(recordForm);
    for await (const [bytes, whole] of lines(file)) {
      const got = t.take(bytes, whole);
      if (got) await use(...got);
    }
    return t.finish();
  }

  unthreaded.backup = { PARTS, AT_ONCE, make, read, keys, some, ours, value, base64 };
})();
