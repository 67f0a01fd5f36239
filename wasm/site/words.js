// The texts of the page. They stand in the HTML in English; in another language they are
// put in their places here. Elements name them:
//   data-words       the text, which is the first content of the element
//   data-words-attr  attributes, as name:key,name:key
// The language is that of the last visit, or the first of the browser's that there is.
'use strict';
window.unthreaded = window.unthreaded || {};

(() => {
  // By language and key; the build fills it in.
  const TEXTS = {};
  const KEPT = 'unthreaded.lang';
  const root = document.documentElement;

  // say returns a text with its arguments; a key that there is not stands for itself.
  const say = (key, ...args) => {
    const text = (TEXTS[root.lang] || {})[key] ?? (TEXTS.en || {})[key] ?? `[${key}]`;
    return text.replace(/\{(\d)\}/g, (_, n) => args[n]);
  };
  unthreaded.say = say;

  // reword puts the text of an element in its place. What the program says there stays.
  unthreaded.reword = (el) => {
    const d = el.dataset;
    if (d.words && !(d.text && root.dataset.state === 'ready')) {
      const first = el.firstChild;
      const own = first && first.nodeType === Node.TEXT_NODE ? first : el.insertBefore(document.createTextNode(''), first);
      own.data = say(d.words) + own.data.match(/\s*$/)[0];
    }
    if (!d.wordsAttr) return;
    for (const pair of d.wordsAttr.split(',')) {
      const [name, key] = pair.split(':');
      el.setAttribute(name, say(key));
    }
  };

  function rewordAll(top) {
    for (const el of top.querySelectorAll('[data-words],[data-words-attr]')) unthreaded.reword(el);
    for (const t of top.querySelectorAll('template')) rewordAll(t.content);
  }

  // speak changes the language of the page.
  unthreaded.speak = (lang) => {
    if (lang === root.lang || !TEXTS[lang]) return;
    root.lang = lang;
    try { localStorage.setItem(KEPT, lang); } catch { /* only the next start may begin in another language */ }
    rewordAll(document);
  };

  let kept = null;
  try { kept = localStorage.getItem(KEPT); } catch { /* storage may be denied */ }
  const read = [kept, ...navigator.languages].map((tag) => tag && tag.toLowerCase().split('-')[0]);
  unthreaded.speak(read.find((tag) => TEXTS[tag]));
})();
