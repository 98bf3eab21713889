// The library in node: the module is read from the disk when this file is imported; `init` is there for programs that run
// in both places.
import { readFileSync } from 'node:fs';
import { init as initSync } from './slim.js';
export * from './slim.js';

initSync(readFileSync(new URL('./pkg/lamella_wasm_bg.wasm', import.meta.url)));
export const init = async () => {};
