// Puts what the program says into the page and tells the program what the person
// does. Elements name what they show and send:
//   data-text, data-value   the text, the value of a control
//   data-show, data-enabled shown or not, usable or not
//   data-pressed            the state of a toggle
//   data-checked            whether a box is ticked
//   data-attr               attributes, as name:key,name:key
//   data-size               sizes in CSS pixels, as property:key,property:key
//   data-modal              whether a dialog is open
//   data-time               a time in ms, written as the day and the hour where the person is
//   data-list               one copy of the <template> inside for each entry, by id
//   data-file               the message that sends the text of a chosen file
//   data-picture            the id of a kept photo, shown as the picture of an <img>
//   data-photo              the name under which a chosen picture is given
//   data-closes             a button that closes the sheet of choices on a phone
//   data-send               the control that a click or a change sends
//   data-drag               a grip by which an entry of a list is drawn to another place, whose
//                           number its first input then sends
//   data-focus              the name under which the keyboard is led here
//   data-on="change"        on a text: sent when it is finished, not at each letter
'use strict';

(() => {
  const root = document.documentElement;
  const say = unthreaded.say;
  // A date with its time, as the program itself writes it.
  const two = (n) => String(n).padStart(2, '0');
  const day = (t) => say('unit.day', t.getDate(), say('unit.month.' + (t.getMonth() + 1)), t.getFullYear());
  const when = (t) => say('unit.moment', day(t), `${two(t.getHours())}:${two(t.getMinutes())}`);
  const look = (scope, key) => key.split('.').reduce((v, k) => (v == null ? v : v[k]), scope);
  const entries = new WeakMap(); // element of a list -> its entry's id

  // A number with its unit, which no line breaks in two: "5.8 mm", "8½ in".
  const amount = /((?:\d+ )?[\d½⅓⅔¼¾⅛⅜⅝⅞][\d.,/½⅓⅔¼¾⅛⅜⅝⅞]* (?:%|mm|cm|m|km|in|ft|yd|s|min|h|px|Hz|spm|per inch|je Zoll|Zoll|in\/s|mm\/s)(?![\w/]))/;

  function setText(el, value) {
    const text = value == null ? '' : String(value);
    if (el.textContent === text) return;
    const parts = el.matches('p, td, th, dd, li, h1, h2, h3, span, small, strong, output') ? text.split(amount) : [text];
    el.replaceChildren(...parts.map((part, i) => {
      if (i % 2 === 0) return part;
      const whole = document.createElement('span');
      whole.className = 'amount';
      whole.textContent = part;
      return whole;
    }));
  }

  function setValue(el, value) {
    // A slider in the hand keeps its own value.
    // So does a text while it is being typed.
    const typing = el.dataset.on === 'change' && document.activeElement === el;
    if (value != null && el.value !== String(value) && !el.matches(':active') && !typing) el.value = value;
  }

  function setAttr(el, pairs, scope) {
    for (const pair of pairs.split(',')) {
      const [name, key] = pair.split(':');
      const value = look(scope, key);
      // An empty value is a choice; left out, the text of an option would be its value.
      if (value === false || value == null || (value === '' && name !== 'value')) el.removeAttribute(name);
      else if (el.getAttribute(name) !== String(value)) el.setAttribute(name, value);
    }
  }

  function setSize(el, pairs, scope) {
    for (const pair of pairs.split(',')) {
      const [name, key] = pair.split(':');
      el.style.setProperty(name, look(scope, key) + 'px');
    }
  }

  function setModal(el, open) {
    if (open && !el.open) el.showModal();
    if (!open && el.open) el.close();
  }

  function bind(el, scope) {
    const d = el.dataset;
    if (d.list) fill(el, look(scope, d.list) || []);
    if (d.attr) setAttr(el, d.attr, scope);
    if (d.size) setSize(el, d.size, scope);
    if (d.modal) setModal(el, !!look(scope, d.modal));
    if (d.text) setText(el, look(scope, d.text));
    if (d.value) setValue(el, look(scope, d.value));
    if (d.time) setText(el, when(new Date(look(scope, d.time))));
    if (d.picture) unthreaded.photos.show(el, look(scope, d.picture));
    if (d.checked) el.checked = !!look(scope, d.checked);
    if (d.show) el.hidden = !look(scope, d.show);
    if (d.enabled) el.disabled = !look(scope, d.enabled);
    if (d.pressed) el.setAttribute('aria-pressed', String(!!look(scope, d.pressed)));
  }

  const BOUND = '[data-list],[data-attr],[data-text],[data-value],[data-time],[data-show],[data-enabled],[data-pressed],[data-checked],[data-size],[data-modal],[data-picture]';

  function bindAll(top, scope) {
    const els = [top, ...top.querySelectorAll(BOUND)];
    for (const el of els) {
      // A row that has left its list in the meantime shows nothing any more.
      if (!top.contains(el)) continue;
      // What stands inside a list is bound with its entry.
      const list = el.parentElement && el.parentElement.closest('[data-list]');
      if (el.matches(BOUND) && (!list || !top.contains(list) || el === top)) bind(el, scope);
    }
  }

  function fill(list, items) {
    const template = list.querySelector(':scope > template');
    const there = [...list.children].filter((c) => c !== template);
    const old = new Map(there.map((c) => [entries.get(c), c])), stay = new Set(items.map((i) => i.id));
    // What goes goes first: a row that has to move past it would lose the keyboard. Two
    // entries of one id are one.
    for (const c of there) if (old.get(entries.get(c)) !== c || !stay.has(entries.get(c))) c.remove();
    let after = template;
    for (const item of items) {
      let el = old.get(item.id);
      old.delete(item.id);
      if (!el) {
        el = template.content.firstElementChild.cloneNode(true);
        entries.set(el, item.id);
      }
      if (after.nextSibling !== el) after.after(el);
      bindAll(el, item);
      after = el;
    }
  }

  let keyHeld = false, ledByKey = false; // a key is down; it moved the focus
  let shown = {}; // the page as it was shown last
  unthreaded.render = (json) => {
    const page = JSON.parse(json);
    if (page.room) page[page.place] = page.room;
    shown = page;
    unthreaded.speak(page.lang);
    root.dataset.theme = page.scheme;
    root.dataset.fabric = page.fabric;
    root.dataset.hand = page.hand;
    const mode = page.rehearse ? page.rehearse.practise.mode : 'freely';
    // What a lesson asks for stands on top, and so does what is said of a new trace.
    const lifted = page.hasTrace && root.dataset.trace === 'no';
    if (root.dataset.place !== page.place || lifted || (root.dataset.practice !== mode && mode !== 'freely')) for (const id of ['column', 'column-body']) document.getElementById(id).scrollTop = 0;
    root.dataset.practice = mode;
    root.dataset.place = page.place;
    root.dataset.tracing = page.tracing ? 'yes' : 'no';
    root.dataset.trace = page.hasTrace ? 'yes' : 'no';
    try {
      localStorage.setItem('unthreaded.theme', page.theme);
      localStorage.setItem('unthreaded.fabric', page.fabric);
    } catch { /* only the first paint may be in the other colours */ }
    bindAll(document.body, page);
    lead(page.focus);
    const canvas = document.querySelector('#cloth canvas');
    if (canvas) canvas.setAttribute('aria-label', page.clothLabel);
  };

  // The keyboard is led to an element once for each count: to the one of that name, or to
  // the first in it that can take it. The column opens for what stands in it.
  let led = 0;
  const TAKES_KEYS = 'button, summary, canvas, input, select, a[href], [tabindex]';
  function lead(focus) {
    if (focus.n === led) return;
    led = focus.n;
    const named = document.querySelector(`[data-focus="${focus.to}"]`);
    const el = named && (named.matches(TAKES_KEYS) ? named : named.querySelector(TAKES_KEYS));
    if (!el) return;
    if (column.contains(el) && el.offsetParent === null) toggle.click();
    const fold = el.closest('details');
    if (fold) fold.open = true;
    el.focus();
    ledByKey = keyHeld;
    el.scrollIntoView({ block: 'nearest' });
  }

  // Ranges of the controls are those that the program declares.
  unthreaded.controls = (json) => {
    const declared = new Map(JSON.parse(json).map((d) => [d.name, d]));
    const set = (top) => {
      for (const el of top.querySelectorAll('input[data-send]')) {
        const d = declared.get(el.dataset.send);
        if (!d || d.min === d.max) continue;
        if (d.kind === 'number') Object.assign(el, { min: d.min, max: d.max, step: d.step || 'any' });
        if (d.kind === 'text') el.maxLength = d.max;
      }
      for (const t of top.querySelectorAll('template')) set(t.content);
    };
    set(document);
  };

  function send(el) {
    const item = el.closest('[data-list] > *');
    if (unthreaded.send) unthreaded.send(el.dataset.send, el.type === 'checkbox' ? (el.checked ? 'on' : 'off') : el.value || '', (item && entries.get(item)) || '');
  }

  addEventListener('click', (e) => {
    const el = e.target.closest('button[data-send]');
    if (!el) return;
    if ((el.dataset.send === 'place' || 'closes' in el.dataset) && column.classList.contains('open')) toggle.click();
    send(el);
  });
  addEventListener('input', (e) => {
    if (e.target.matches('input[data-send]:not([data-on=change]),select[data-send]')) send(e.target);
  });
  // A text is sent when it is whole.
  addEventListener('change', (e) => {
    if (e.target.matches('[data-on=change]')) send(e.target);
  });

  // An entry that is drawn by its grip: what is sent is the number that could be typed.
  addEventListener('pointerdown', (e) => {
    const grip = e.target.closest('[data-drag]'), li = grip && grip.closest('[data-list] > *');
    if (!li || !e.isPrimary) return;
    e.preventDefault();
    grip.setPointerCapture(e.pointerId);
    const others = [...li.parentElement.children].filter((c) => c !== li && c.tagName === li.tagName);
    const middles = others.map((c) => { const r = c.getBoundingClientRect(); return (r.top + r.bottom) / 2; });
    const from = e.clientY, done = new AbortController();
    const end = (up, take) => {
      done.abort();
      li.style.translate = '';
      delete li.dataset.drawn;
      const input = li.querySelector('input[data-send]'), place = 1 + middles.filter((y) => y < up.clientY).length;
      if (take && input && String(place) !== input.value) { input.value = place; send(input); }
    };
    li.dataset.drawn = 'yes';
    grip.addEventListener('pointermove', (m) => { li.style.translate = `0 ${m.clientY - from}px`; }, done);
    grip.addEventListener('pointerup', (m) => end(m, true), done);
    grip.addEventListener('pointercancel', (m) => end(m, false), done);
  });

  // A file is read here and sent whole, as text.
  addEventListener('change', async (e) => {
    const name = e.target.dataset.file, photo = e.target.dataset.photo, file = e.target.files && e.target.files[0];
    if (photo && file) {
      unthreaded.photos.take(photo, file);
      e.target.value = '';
    }
    if (!name || !file || !unthreaded.send) return;
    unthreaded.send(name, await file.text(), '');
    e.target.value = '';
  });

  // Keys: the canvas must not swallow them (it takes every key it is given), and
  // Tab must lead out of it.
  addEventListener('pointerdown', () => { root.dataset.keys = 'no'; }, true);
  // A key that leads to a button does not press it too: that takes another press.
  addEventListener('keydown', (e) => { if (!e.repeat) { keyHeld = true; ledByKey = false; } }, true);
  addEventListener('keyup', () => { keyHeld = ledByKey = false; }, true);
  addEventListener('blur', () => { keyHeld = ledByKey = false; }); // of the window: the key may be let go elsewhere
  addEventListener('click', (e) => {
    if (ledByKey && e.detail === 0 && e.isTrusted) { e.preventDefault(); e.stopImmediatePropagation(); }
  }, true);
  addEventListener('keydown', (e) => {
    root.dataset.keys = 'yes';
    const onCloth = e.target === document.body || e.target.tagName === 'CANVAS';
    if (e.target.tagName === 'CANVAS') e.stopImmediatePropagation();
    const typing = e.target.matches('input:not([type=range],[type=checkbox]),textarea'), ctrl = e.ctrlKey || e.metaKey, key = e.key.toLowerCase();
    if (ctrl && !typing && (key === 'z' || key === 'y')) {
      unthreaded.send && unthreaded.send(key === 'y' || e.shiftKey ? 'redo' : 'undo', '', '');
      e.preventDefault();
    } else if (e.key === 'Escape') {
      unthreaded.send && unthreaded.send('cancel', '', '');
    } else if (onCloth && shown.keys && shown.keys.includes(e.key)) {
      unthreaded.send && unthreaded.send('key', e.key, e.shiftKey ? 'shift' : '');
      e.preventDefault();
    } else if (e.key === ' ' && onCloth) {
      unthreaded.send && unthreaded.send('play', '', '');
      e.preventDefault();
    }
  }, true);
  addEventListener('keyup', (e) => { if (e.target.tagName === 'CANVAS') e.stopImmediatePropagation(); }, true);
  // In a place that takes the wheel it moves what lies on the cloth, and with ctrl shows
  // it larger, as two fingers on a touchpad do. Elsewhere zooming the page with it stays possible over
  // the cloth.
  const LINE = 16; // CSS px, for wheels that count lines
  addEventListener('wheel', (e) => {
    if (e.target.tagName !== 'CANVAS') return;
    if (!shown.wheel) {
      if (e.ctrlKey) e.stopImmediatePropagation();
      return;
    }
    e.preventDefault();
    e.stopImmediatePropagation();
    const r = e.target.getBoundingClientRect(), unit = e.deltaMode === 0 ? 1 : LINE;
    unthreaded.send && unthreaded.send('wheel', `${e.deltaX * unit} ${e.deltaY * unit}`, `${e.clientX - r.left} ${e.clientY - r.top}${e.ctrlKey ? ' zoom' : ''}`);
  }, { capture: true, passive: false });

  // The slider goes on by about a stitch for each press of an arrow.
  const PRESS = 2.5; // mm
  document.getElementById('scrub').addEventListener('keydown', (e) => {
    const by = { ArrowRight: PRESS, ArrowUp: PRESS, ArrowLeft: -PRESS, ArrowDown: -PRESS }[e.key];
    if (!by) return;
    e.preventDefault();
    e.target.value = Number(e.target.value) + by;
    send(e.target);
  });

  // Settings close like any other sheet.
  const prefs = document.querySelector('.prefs');
  addEventListener('pointerdown', (e) => { if (!prefs.contains(e.target)) prefs.open = false; }, true);
  addEventListener('keydown', (e) => { if (e.key === 'Escape') prefs.open = false; }, true);

  const column = document.getElementById('column');
  const toggle = document.getElementById('column-toggle');
  toggle.addEventListener('click', () => {
    const open = column.classList.toggle('open');
    toggle.setAttribute('aria-expanded', String(open));
    const text = document.getElementById('column-toggle-text');
    text.dataset.words = open ? 'site.common.close' : 'site.shell.open-measures-and-choices';
    unthreaded.reword(text);
  });

  // The last file can go to another device by the system's own sheet too (Web Share), where
  // there is one and it takes files of that kind.
  const sharing = document.getElementById('share');
  let last = null;
  function offered(file) {
    last = navigator.canShare && navigator.canShare({ files: [file] }) ? file : null;
    sharing.hidden = !last;
    sharing.textContent = unthreaded.say('site.shell.share', file.name);
  }
  sharing.addEventListener('click', () => {
    // A sheet that is closed again, or refused, leaves the file among the downloads.
    navigator.share({ files: [last] }).then(() => { sharing.hidden = true; }, () => {});
  });

  // download hands the person a file, given in parts.
  unthreaded.download = (name, type, ...parts) => {
    const file = new File(parts, name, { type });
    const a = document.createElement('a');
    a.href = URL.createObjectURL(file);
    a.download = name;
    a.click();
    setTimeout(() => URL.revokeObjectURL(a.href), 10000);
    offered(file);
  };
})();
