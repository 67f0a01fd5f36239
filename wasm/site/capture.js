// Takes every sample that the pointer gives, at the rate of the device and with
// the event's own time, into a buffer that the program empties once a frame.
'use strict';
window.unthreaded = window.unthreaded || {};

(() => {
  const STRIDE = 7; // kind, pointer id, device, time (s), x, y (CSS px), pressure
  const MOVE = 0, DOWN = 1, UP = 2, CANCEL = 3;
  const DEVICES = { mouse: 0, pen: 1, touch: 2 };
  const host = document.getElementById('cloth');
  const active = new Map(); // pointer id -> the place of the cloth when it went down
  let buffer = new Float64Array(4096 * STRIDE);
  let filled = 0;

  function push(kind, parent, e) {
    if (filled + STRIDE > buffer.length) {
      const larger = new Float64Array(buffer.length * 2);
      larger.set(buffer);
      buffer = larger;
    }
    const rect = active.get(parent.pointerId);
    buffer.set([kind, parent.pointerId, DEVICES[parent.pointerType] ?? 0,
      e.timeStamp / 1000, e.clientX - rect.left, e.clientY - rect.top, e.pressure], filled);
    filled += STRIDE;
  }

  function down(e) {
    if (!host.contains(e.target) || (e.pointerType === 'mouse' && e.button !== 0)) return;
    active.set(e.pointerId, host.getBoundingClientRect());
    try { e.target.setPointerCapture(e.pointerId); } catch { /* the pointer is gone already */ }
    push(DOWN, e, e);
  }

  function move(e) {
    if (!active.has(e.pointerId)) return;
    // The mouse button may have been let go outside a window that took the capture.
    if (e.pointerType === 'mouse' && !(e.buttons & 1)) return end(CANCEL, e);
    let parts = e.getCoalescedEvents ? e.getCoalescedEvents() : [];
    if (parts.length === 0) parts = [e];
    for (const part of parts) push(MOVE, e, part);
  }

  function end(kind, e) {
    if (!active.has(e.pointerId)) return;
    push(kind, e, e);
    active.delete(e.pointerId);
  }

  addEventListener('pointerdown', down, true);
  addEventListener('pointermove', move, true);
  addEventListener('pointerup', (e) => end(UP, e), true);
  addEventListener('pointercancel', (e) => end(CANCEL, e), true);
  addEventListener('lostpointercapture', (e) => end(CANCEL, e), true);

  unthreaded.capture = {
    stride: STRIDE,
    // filled returns how many numbers wait; take copies them out and empties the
    // buffer.
    filled: () => filled,
    take() {
      const bytes = new Uint8Array(buffer.buffer, 0, filled * 8);
      filled = 0;
      return bytes;
    },
  };
})();
