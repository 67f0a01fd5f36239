// Knows which tabs of this page live: each holds a lock of its own as long as it does, which
// the browser lets go when the tab is closed or crashes (Web Locks, W3C).
'use strict';

(() => {
  const PREFIX = 'unthreaded.tab.';
  const own = String(Date.now()) + '-' + Math.random().toString(36).slice(2);
  const { locks } = navigator;
  const held = locks ? new Promise((resolve) => {
    locks.request(PREFIX + own, () => {
      resolve();
      return new Promise(() => {}); // as long as the page is there
    }).catch(resolve);
  }) : Promise.resolve();

  unthreaded.tabs = {
    own,
    // living gives the names of the tabs that live. A browser without locks knows of this one
    // only.
    async living() {
      await held;
      if (!locks) return [own];
      const all = await locks.query();
      return [own, ...all.held.map((l) => l.name).filter((n) => n.startsWith(PREFIX)).map((n) => n.slice(PREFIX.length))];
    },
  };
})();
