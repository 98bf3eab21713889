// What is stored, piece by piece, and what this tab knows of each piece.
import type { Recipe } from '../lamella';
import { emptyBench, type BenchState } from '../bench-state';
import { noPapers, type Papers } from '../papers';
import type { Clock } from './merge';
import { readBench, readPapers, readRecipe, type Settings } from './read';
import { isObject, number, object, parsed, text, type Read } from './shape';
import { putAside, ROOT, type Refusal } from './storage';

/** A recipe on the shelf. */
export interface Kept {
  id: string;
  recipe: Recipe;
  bench: BenchState;
  papers: Papers;
  /** When it came onto the shelf: the latest stands first. */
  made: number;
  /** Why it is a copy that nobody asked for. */
  aside?: string | undefined;
}

/** All the work. */
export interface Work {
  shelf: readonly Kept[];
  settings: Settings;
}

/** What a maker is told of it. */
export type Told =
  | { is: 'aside'; what: readonly string[] }
  | { is: 'copy'; id: string; name: string }
  | { is: 'dropped'; name: string; here: boolean };

export type Part = 'recipe' | 'bench' | 'papers';

export interface Outcome {
  work: Work;
  told: readonly Told[];
  /** Why some of it is not stored. */
  refusal?: Refusal | undefined;
}

/** The recipe last: with it, all of an entry is there. */
export const PARTS: readonly Part[] = ['bench', 'papers', 'recipe'];
export const READ: { [P in Part]: Read<Kept[P]> } = { recipe: readRecipe, bench: readBench, papers: readPapers };
export const SETTINGS = `${ROOT}settings`;
export const VIEW = `${ROOT}view`;

const random = (): string => crypto.getRandomValues(new Uint32Array(2)).reduce((all, one) => all + one.toString(36), '');
/** This tab, until it is loaded again. */
export const ME = random();
export const newId = (): string => `${Date.now().toString(36)}${random()}`;

export const keyOf = (id: string, part: Part | 'dropped'): string => `${ROOT}${id}/${part}`;

/** What is stored under a key. */
export interface Stored {
  /** How often which tab had saved it. */
  clock: Clock;
  /** The tab that saved it. */
  by: string;
  /** When. */
  at: number;
  value: unknown;
  made?: number;
  aside?: string;
}

/** What this tab knows of a key. */
export interface Known extends Stored {
  /** The text that is stored; nothing while none is. */
  raw: string | null;
  /** What other tabs have seen last. */
  base: unknown;
}

export const known = new Map<string, Known>();
/** What stands in the place of something and could not be put aside yet: it is not written over before that. */
export const inTheWay = new Map<string, string>();
const STORED = object({ clock: object({}, number), by: text, at: number, made: number, aside: text });

/** What a text holds, and whether all of it could be read. */
export function storedOf<T>(raw: string, of: Read<T>): { stored: Stored & { value: T }; whole: boolean } | undefined {
  let bad = false;
  const isBad = (): undefined => void (bad = true);
  const { value: found, cut, whole } = parsed(raw);
  const { clock = {}, by = '', at = 0, value, made, aside } = (STORED(found, isBad) ?? {}) as Partial<Stored>;
  // Half a recipe is none, though half a log has the steps of its first half.
  const read = of === READ.recipe && isObject(value) && cut.has(value) ? undefined : of(value, isBad);
  return read === undefined ? undefined : { stored: { clock, by, at, value: read, made, aside } as Stored & { value: T }, whole: whole && !bad };
}

export const learn = (key: string, raw: string, stored: Stored, base: unknown = stored.value): void =>
  void known.set(key, { ...stored, raw, base });

/** Something that nobody has changed yet need not be stored. */
export function asIfStored(one: Kept): void {
  for (const part of PARTS) known.set(keyOf(one.id, part), { raw: null, clock: {}, by: '', at: 0, value: one[part], base: one[part] });
}

/** Keeps a text that cannot be read; until that has been done, nothing is written over it. */
export function saveText(key: string, raw: string): Refusal | undefined {
  const refusal = putAside(key, raw);
  if (refusal) inTheWay.set(key, raw);
  else inTheWay.delete(key);
  return refusal;
}

export const entry = (recipe: Recipe, more: Partial<Kept> = {}): Kept => ({
  id: newId(),
  recipe,
  bench: emptyBench(),
  papers: noPapers(),
  made: Date.now(),
  ...more,
});

const PLACE = new RegExp(`^${ROOT}([^/]+)/(recipe|bench|papers|dropped)$`);

/** The entry and the part of it that a key is of. */
export function placeOf(key: string): { id: string; part: Part | 'dropped' } | undefined {
  const found = PLACE.exec(key);
  return found ? { id: found[1]!, part: found[2] as Part | 'dropped' } : undefined;
}
