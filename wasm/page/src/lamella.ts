// The library, with the bytes of its module inside this page.
import { init } from '../../slim.js';
import url from '../../pkg/lamella_wasm_bg.wasm?url';

export * from '../../slim.js';
export type * from '../../types.js';

/** The bytes of a data URL; none are fetched. */
function bytes(dataUrl: string): Uint8Array<ArrayBuffer> {
  const text = atob(dataUrl.slice(dataUrl.indexOf(',') + 1));
  const out = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i += 1) out[i] = text.charCodeAt(i);
  return out;
}

performance.mark('init');
init(bytes(url));
performance.mark('ready');
