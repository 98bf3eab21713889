export * from './api.js';

/** Makes the library ready from the bytes of its module, at once. */
export function init(bytes: BufferSource | WebAssembly.Module): void;
