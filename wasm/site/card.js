// The outline that is fitted to a payment card can be dragged by its corner.
'use strict';

(() => {
  const dialog = document.getElementById('card-dialog');
  const outline = document.getElementById('card');
  const corner = document.getElementById('card-corner');
  const send = (name, value) => unthreaded.send && unthreaded.send('rehearse.' + name, value, '');
  let grip = null; // from the pointer to the outline's corner, while it is dragged

  // The long side lies across, or upright where the screen is narrow.
  const upright = () => matchMedia('(max-width: 600px)').matches;

  corner.addEventListener('pointerdown', (e) => {
    const r = outline.getBoundingClientRect();
    grip = [r.right - e.clientX, r.bottom - e.clientY];
    corner.setPointerCapture(e.pointerId);
    e.preventDefault();
  });
  corner.addEventListener('pointermove', (e) => {
    if (!grip) return;
    const r = outline.getBoundingClientRect();
    send('card', String(upright() ? e.clientY + grip[1] - r.top : e.clientX + grip[0] - r.left));
  });
  for (const name of ['pointerup', 'pointercancel']) corner.addEventListener(name, () => { grip = null; });

  // The browser may close a dialog by itself.
  dialog.addEventListener('close', () => send('card-close', ''));
})();
