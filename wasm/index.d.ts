export * from './api.js';

/**
 * Makes the library ready; await it once before anything else. In a browser the module is fetched from beside this
 * package unless `from` says where it is; in node it is ready at once.
 */
export function init(from?: string | URL | Request | Response | BufferSource | WebAssembly.Module): Promise<void>;
