// The library, with the bytes of its module inside this page.
import { init } from '../../slim.js';
import url from '../../pkg/lamella_wasm_bg.wasm?url';

export * from '../../slim.js';
export type * from '../../types.js';

/** The bytes of a data URL; none are fetched. */
function bytes(dataUrl: string): Uint8Array<ArrayBuffer> {
  const base64 = dataUrl.slice(dataUrl.indexOf(',') + 1);
  // Newer browsers do it natively.
  const native = (Uint8Array as unknown as { fromBase64?: (text: string) => Uint8Array<ArrayBuffer> }).fromBase64;
  if (native) return native.call(Uint8Array, base64);
  const text = atob(base64);
  const out = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i += 1) out[i] = text.charCodeAt(i);
  return out;
}

performance.mark('init');
init(bytes(url));
performance.mark('ready');
