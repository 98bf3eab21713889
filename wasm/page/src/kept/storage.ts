// The browser's storage, which may be full, refused, cleared or written by anyone.

/** Where the work is stored: a key for each recipe, its bench and its papers, and one for the settings. */
export const ROOT = 'lamella/2/';
/** Where all of it was stored in one piece. */
export const OLD = 'lamella/1';
/** Where what cannot be read is kept, as it was found. */
const ASIDE = 'lamella/aside/';

/** Why something is not stored. */
export type Refusal = 'full' | 'refused';

function area(): Storage {
  if (typeof localStorage === 'undefined') throw new Error('there is no storage here');
  return localStorage;
}

/** Whether there is any storage. */
export function isRefused(): boolean {
  try {
    void area().length;
    return false;
  } catch {
    return true;
  }
}

export function read(key: string): string | null {
  try {
    return area().getItem(key);
  } catch {
    return null;
  }
}

/** Why it was not written; nothing when it was. */
export function write(key: string, text: string): Refusal | undefined {
  try {
    area().setItem(key, text);
    return undefined;
  } catch (error) {
    return error instanceof DOMException && /quota/i.test(error.name) ? 'full' : 'refused';
  }
}

export function remove(key: string): void {
  try {
    area().removeItem(key);
  } catch {
    // What cannot be taken away stays.
  }
}

export function keys(root = 'lamella/'): string[] {
  try {
    const all = Array.from({ length: area().length }, (_, index) => area().key(index) ?? '');
    return all.filter((key) => key.startsWith(root)).sort();
  } catch {
    return [];
  }
}

/** Puts a text aside under a key of its own, once; why that failed. */
export function putAside(from: string, text: string): Refusal | undefined {
  if (asides().some((key) => read(key) === text)) return undefined;
  return write(`${ASIDE}${Date.now()}/${from}`, text);
}

/** The keys of what is kept aside, the latest first. */
export const asides = (): string[] => keys(ASIDE).reverse();

/** When something was put aside. */
export const asideSince = (key: string): Date => new Date(Number(key.slice(ASIDE.length).split('/')[0]));
