// Sets the colours of page and cloth before the first paint, from the choice of the last visit or
// the system, so that a dark room stays dark; and notes whether the clock is the fine
// one, which the host's headers decide.
(() => {
  let choice = 'auto';
  try {
    choice = localStorage.getItem('unthreaded.theme') || 'auto';
    document.documentElement.dataset.fabric = localStorage.getItem('unthreaded.fabric') || '';
  } catch { /* storage may be denied */ }
  const dark = choice === 'dark' || (choice !== 'light' && matchMedia('(prefers-color-scheme: dark)').matches);
  document.documentElement.dataset.theme = dark ? 'dark' : 'light';
  document.documentElement.dataset.clock = window.crossOriginIsolated ? 'fine' : 'coarse';
})();
