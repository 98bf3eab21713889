// Reads what was stored with care: what is there may be cut off, written over, or of a page that was never built.

/** Says that something could not be read. */
export type Bad = () => undefined;
/** Takes what it can read of a thing. */
export type Read<T> = (value: unknown, bad: Bad) => T | undefined;

export const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export const text: Read<string> = (value, bad) => (typeof value === 'string' ? value : bad());
export const number: Read<number> = (value, bad) => (typeof value === 'number' && Number.isFinite(value) ? value : bad());
/** What stands in a field. */
export const leaf: Read<string | number> = (value, bad) => (typeof value === 'number' ? value : text(value, bad));
export const anything: Read<unknown> = (value) => value;

/** One of a few words. */
export const oneOf =
  <T extends string>(...words: readonly T[]): Read<T> =>
  (value, bad) =>
    words.find((word) => word === value) ?? bad();

/** A list; what of it cannot be read is left out. */
export const list =
  <T>(of: Read<T>): Read<T[]> =>
  (value, bad) =>
    Array.isArray(value) ? value.map((one) => of(one, bad)).filter((one) => one !== undefined) : bad();

/** Named fields, and whatever else is there. Without those that it needs it is none. */
export const object =
  (fields: Record<string, Read<unknown>>, others: Read<unknown> = anything, ...needs: readonly string[]): Read<Record<string, unknown>> =>
  (value, bad) => {
    if (!isObject(value)) return bad();
    const found: Record<string, unknown> = {};
    for (const [field, inner] of Object.entries(value)) {
      const read = field === '__proto__' ? bad() : inner === null ? undefined : (Object.hasOwn(fields, field) ? fields[field]! : others)(inner, bad);
      if (read !== undefined) found[field] = read;
    }
    return needs.every((field) => field in found) ? found : bad();
  };

/** Nothing that is stored is nested as deep as this. */
const DEEPEST = 40;

const deeper = (value: unknown, left = DEEPEST): boolean =>
  typeof value === 'object' && value !== null && (left === 0 || Object.values(value).some((inner) => deeper(inner, left - 1)));

export interface Parsed {
  value: unknown;
  /** What was begun and not ended. */
  cut: WeakSet<object>;
  whole: boolean;
}

/** A text of JSON, or as much of it as can be read from its beginning. */
export function parsed(json: string): Parsed {
  const cut = new WeakSet<object>();
  let value: unknown;
  let whole = true;
  try {
    value = JSON.parse(json) as unknown;
  } catch {
    whole = false;
    value = beginning(json, cut);
  }
  return deeper(value) ? { value: undefined, cut, whole: false } : { value, cut, whole };
}

const TOKEN = /[ \t\r\n]*(?:[{}[\],:]|"[^"\\\u0000-\u001f]*(?:\\[^\u0000-\u001f][^"\\\u0000-\u001f]*)*"|-?\d[\d.eE+-]*|true|false|null)/y;

function beginning(json: string, cut: WeakSet<object>): unknown {
  TOKEN.lastIndex = 0;
  let broken = false;
  const next = (): string => {
    const found = broken ? undefined : TOKEN.exec(json)?.[0].trim();
    broken ||= found === undefined;
    return found ?? '';
  };
  const single = (token: string): unknown => {
    try {
      return JSON.parse(token) as unknown;
    } catch {
      broken = true;
      return undefined;
    }
  };
  const inside = <T extends object>(into: T, end: string, one: (token: string) => void): T => {
    for (let token = next(); token !== end && !broken; ) {
      one(token);
      if (broken) break;
      token = next();
      if (token === ',') token = next();
      else if (token !== end) broken = true;
    }
    if (broken) cut.add(into);
    return into;
  };
  const value = (token: string, left: number): unknown => {
    if (left === 0) broken = true;
    if (broken) return undefined;
    if (token === '[') {
      const found: unknown[] = [];
      return inside(found, ']', (inner) => {
        const read = value(inner, left - 1);
        if (read !== undefined) found.push(read);
      });
    }
    if (token === '{') {
      const found: Record<string, unknown> = {};
      return inside(found, '}', (inner) => {
        const name = single(inner);
        if (typeof name !== 'string' || next() !== ':') broken = true;
        const read = value(next(), left - 1);
        if (read !== undefined && name !== '__proto__') found[name as string] = read;
      });
    }
    return single(token);
  };
  return value(next(), DEEPEST);
}
