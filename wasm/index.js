// The library in a browser, with a bundler or without: `await init()` fetches the module that lies beside this file.
import initRaw from './pkg/lamella_wasm.js';
export * from './slim.js';

export const init = async (from = new URL('./pkg/lamella_wasm_bg.wasm', import.meta.url)) => {
  await initRaw({ module_or_path: from });
};
