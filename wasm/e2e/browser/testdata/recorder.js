// Records every pointer event on the pad with its coalesced events.
const record = [];
let calls = 0;
const pad = document.getElementById('pad');
const sample = e => ({
  type: e.type, kind: e.pointerType, id: e.pointerId,
  t: e.timeStamp, x: e.clientX, y: e.clientY, pressure: e.pressure, buttons: e.buttons,
});
for (const type of ['pointerdown', 'pointermove', 'pointerup', 'pointercancel']) {
  pad.addEventListener(type, e => {
    calls++;
    if (type === 'pointerdown') pad.setPointerCapture(e.pointerId);
    const all = type === 'pointermove' ? e.getCoalescedEvents() : [];
    for (const c of all.length ? all : [e]) record.push({ ...sample(c), type });
  });
}
document.getElementById('press').addEventListener('click', e => { e.target.textContent = 'Pressed'; });
document.documentElement.dataset.state = 'ready';
