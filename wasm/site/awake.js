// The screen stays lit while a route is followed beside the machine (Screen Wake Lock, W3C).
// The browser ends that when the page goes out of sight; it is asked for again when it comes
// back. Where it cannot be had, the program hears of it and says so.
'use strict';

(() => {
  let lock = null, wanted = false;
  const tell = (on) => unthreaded.send && unthreaded.send('route.awake', on ? 'on' : 'off', '');

  async function ask() {
    if (!wanted || lock || document.visibilityState !== 'visible') return;
    try {
      const got = await navigator.wakeLock.request('screen');
      if (!wanted) { got.release(); return; }
      lock = got;
      got.addEventListener('release', () => { lock = null; });
      tell(true);
    } catch {
      tell(false);
    }
  }
  addEventListener('visibilitychange', ask, true);

  unthreaded.awake = {
    keep(on) {
      wanted = on;
      if (on) ask();
      else if (lock) { lock.release(); lock = null; }
    },
  };
})();
