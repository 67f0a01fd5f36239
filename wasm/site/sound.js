// Ticks, made on the spot and given to the system's usual output, which its mute and
// volume govern. The audio context is made once the person has done something on the
// page; before that a browser lets no page sound.
'use strict';

(() => {
  const LATER = 0.03; // s after its time at which a tick sounds, so that frames do not jolt the beat
  const LONGEST = 0.25; // s ahead at most: a clock that is wrong must not pile up ticks
  const LENGTH = 0.03; // s
  const PITCH = 1500, BEAT_PITCH = 750; // Hz
  let context = null, wanted = false;

  function wake() {
    const acted = navigator.userActivation;
    if (!wanted || (acted && !acted.hasBeenActive)) return;
    const Context = window.AudioContext || window.webkitAudioContext;
    if (!context && Context) context = new Context();
    if (context && context.state === 'suspended') context.resume();
  }
  for (const name of ['pointerdown', 'pointerup', 'keydown', 'click']) addEventListener(name, wake, true);

  unthreaded.sound = {
    listen(on) {
      wanted = on;
      if (on) wake();
      else if (context) context.suspend();
    },
    // tick sounds one tick at time t (s, clock of events).
    tick(t, volume, beat) {
      if (!context || !wanted) return;
      const at = context.currentTime + Math.min(LONGEST, Math.max(0, t + LATER - performance.now() / 1000));
      const voice = context.createOscillator(), loud = context.createGain();
      voice.type = 'triangle';
      voice.frequency.value = beat ? BEAT_PITCH : PITCH;
      loud.gain.setValueAtTime(Math.max(0.001, volume * volume * 0.5), at);
      loud.gain.exponentialRampToValueAtTime(0.001, at + LENGTH);
      voice.connect(loud).connect(context.destination);
      voice.start(at);
      voice.stop(at + LENGTH);
    },
  };
})();
