// What tests ask of a page as it stands: whether its texts are seen whole and in the
// language that is chosen. Read by reach_test.go.
(() => {
  'use strict';
  const shown = (el) => el.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && !el.closest('.unseen, [hidden]');
  const scrolls = (el) => /auto|scroll/.test(getComputedStyle(el).overflowX);
  const named = (el) => `${el.tagName.toLowerCase()}${el.id ? '#' + el.id : ''}${el.className && el.className.baseVal === undefined ? '.' + String(el.className).trim().split(/\s+/).join('.') : ''}`;
  const ownText = (el) => [...el.childNodes].filter((n) => n.nodeType === Node.TEXT_NODE).map((n) => n.data).join(' ').trim();
  const pen = document.createElement('canvas').getContext('2d');

  // cutOff names what is wider than its room: texts whose box hides the rest, choices
  // wider than their field, and what stands beyond the edge of the page.
  function cutOff() {
    const out = [];
    for (const el of document.body.querySelectorAll('*')) {
      if (!shown(el)) continue;
      const s = getComputedStyle(el);
      if (el.tagName === 'SELECT') {
        pen.font = s.font;
        const text = el.selectedOptions[0]?.textContent.trim() || '';
        const room = el.clientWidth - parseFloat(s.paddingLeft) - parseFloat(s.paddingRight);
        if (pen.measureText(text).width > room + 1) out.push(`${named(el)} has ${Math.round(room)} px for "${text}"`);
        continue;
      }
      if (!ownText(el)) continue;
      if (s.display !== 'inline' && !scrolls(el) && el.scrollWidth > el.clientWidth + 1 && el.clientWidth > 0) {
        out.push(`${named(el)} is ${el.scrollWidth} px wide in ${el.clientWidth}: "${ownText(el).slice(0, 60)}"`);
      }
      const r = el.getBoundingClientRect();
      let inScroller = false;
      for (let up = el.parentElement; up && !inScroller; up = up.parentElement) inScroller = scrolls(up);
      if (!inScroller && (r.right > innerWidth + 1 || r.left < -1)) out.push(`${named(el)} stands beyond the edge: "${ownText(el).slice(0, 60)}"`);
    }
    if (document.documentElement.scrollWidth > innerWidth) out.push(`the page is ${document.documentElement.scrollWidth} px wide on ${innerWidth}`);
    return out;
  }

  // texts are all that is read or spoken now, but for what is marked as another language.
  function texts() {
    const out = [];
    const walk = (el) => {
      if (el.lang && el.lang !== document.documentElement.lang && el !== document.documentElement) return;
      if (el.closest('[hidden], script, style, template')) return;
      if (ownText(el)) out.push(ownText(el));
      for (const name of ['aria-label', 'aria-valuetext', 'title', 'alt', 'placeholder']) if (el.getAttribute(name)) out.push(el.getAttribute(name));
      for (const child of el.children) walk(child);
    };
    walk(document.body);
    out.push(document.title);
    return out;
  }

  // moving names what moves by itself or fades, where less motion is asked for.
  function moving() {
    if (!matchMedia('(prefers-reduced-motion: reduce)').matches) return [];
    const lasts = (times) => times.split(',').some((t) => parseFloat(t) > 0);
    return [...document.body.querySelectorAll('*')].filter((el) => {
      const s = getComputedStyle(el);
      return s.animationName !== 'none' || s.scrollBehavior === 'smooth' || (s.transitionProperty !== 'none' && lasts(s.transitionDuration));
    }).map((el) => `${named(el)} moves though less motion is asked for`);
  }
  window.reach = { cutOff, texts, moving };
})();
