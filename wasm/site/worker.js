// The place of the second program beside the page: it does jobs (game/work) one after the
// other. What comes in is a job, what goes out is how far it has come and its answer.
'use strict';

// As long as the lock is held this lives, however it ends; see work.js.
if (navigator.locks) {
  navigator.locks.request(self.name, () => {
    postMessage({ alive: true });
    return new Promise(() => {});
  });
}

importScripts('wasm_exec.js');

self.unthreadedWork = {
  told(share) {
    postMessage({ share });
    return true;
  },
  done: (doc) => postMessage({ doc }, [doc.buffer]),
  ready: () => postMessage({ ready: true }),
  rest: 0,
};

onmessage = (e) => self.unthreadedWork.take(e.data);

(async () => {
  const go = new Go();
  const { instance } = await WebAssembly.instantiateStreaming(fetch('work.wasm' + location.search), go.importObject);
  await go.run(instance);
  throw new Error('the program has ended');
})().catch((err) => postMessage({ fault: err.message }));
