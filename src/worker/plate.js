// Starts the plate's worker. A file of our own, so that what goes wrong on the way reaches the page as a message.

try {
  importScripts("./plate-worker.js");
  wasm_bindgen({ module_or_path: "./plate-worker_bg.wasm" }).catch((error) => postMessage({ Failed: String(error) }));
} catch (error) {
  postMessage({ Failed: String(error) });
}
