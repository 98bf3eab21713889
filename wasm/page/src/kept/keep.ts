// Stores the work piece by piece, and takes in what other tabs have stored. Only what has changed is written, so that a tab
// that lies about with an old state does no harm; what two tabs have both changed is merged, or kept as two.
import { follow, LamellaError, type Recipe } from '../lamella';
import type { BenchState } from '../bench-state';
import {
  asIfStored, entry, inTheWay, keyOf, known, learn, ME, newId, PARTS, placeOf, READ, saveText, SETTINGS, storedOf, VIEW,
  type Kept, type Known, type Outcome, type Part, type Stored, type Told, type Work,
} from './known';
import { benchOf, covers, joined, merged, same, ticked } from './merge';
import { readEntry, readSettings, recipeOfBench, usualSettings, type Settings } from './read';
import { isObject, list, parsed, type Read } from './shape';
import { isRefused, keys, OLD, putAside, read, remove, ROOT, write, type Refusal } from './storage';

export { entry, newId, type Kept, type Outcome, type Told, type Work } from './known';

/** The one key of an older page, until all of it is stored anew. */
let old: string | null = null;

const WHAT: Record<Part, string> = { recipe: 'a recipe', bench: 'a bench', papers: 'papers' };
const partName = (part: Part, name: string | undefined): string =>
  part === 'recipe' || name === undefined ? WHAT[part] : part === 'bench' ? `the bench of “${name}”` : `the papers of “${name}”`;

/** Everything that is stored, with `fresh` for a browser that has nothing. */
export function load(fresh: () => Recipe): Outcome {
  const what: string[] = [];
  const shelf = idsOf().flatMap((id) => entryOf(id, what) ?? []);
  const settings = settingsOf(what);
  old = read(OLD);
  const work = old === null ? { shelf, settings } : withOld({ shelf, settings }, old, what);
  const sorted = [...work.shelf].sort((one, other) => other.made - one.made);
  if (sorted.length === 0) {
    sorted.push(entry(fresh()));
    asIfStored(sorted[0]!);
  }
  return { work: { ...work, shelf: sorted }, told: what.length > 0 ? [{ is: 'aside', what }] : [], refusal: isRefused() ? 'refused' : undefined };
}

/** The entries that are stored; what is known to have been deleted for a day is forgotten. */
function idsOf(): string[] {
  const ids = new Set<string>();
  for (const key of keys(ROOT)) {
    const place = placeOf(key);
    if (place?.part === 'dropped') {
      if (!(Date.now() - Number(read(key)) < 86_400_000)) remove(key);
    } else if (place) ids.add(place.id);
  }
  return [...ids];
}

/** A stored entry, as much of it as can be read. */
function entryOf(id: string, what: string[]): Kept | undefined {
  const parts: Partial<Kept> = {};
  const bad: Part[] = [];
  for (const part of PARTS) {
    const key = keyOf(id, part);
    const raw = read(key);
    if (raw === null) continue;
    const found = storedOf<Kept[Part]>(raw, READ[part] as Read<Kept[Part]>);
    if (found) {
      // What was mended counts as changed: it is stored as it is now.
      learn(key, raw, found.whole ? found.stored : { ...found.stored, value: undefined }, found.stored.value);
      Object.assign(parts, { [part]: found.stored.value });
      if (part === 'recipe') Object.assign(parts, { made: found.stored.made ?? 0, aside: found.stored.aside });
    }
    if (!found?.whole) {
      bad.push(part);
      // In the place of what cannot be read at all nothing need be left, once it is kept.
      if (!saveText(key, raw) && !found) remove(key);
    }
  }
  // Of a recipe that cannot be read the bench has a copy, if it was begun.
  parts.recipe ??= parts.bench && recipeOfBench(parts.bench);
  const name = parts.recipe?.name;
  what.push(...bad.map((part) => partName(part, name)));
  if (!parts.recipe) {
    for (const part of PARTS) orphaned(keyOf(id, part));
    return undefined;
  }
  return entry(parts.recipe, { made: 0, ...parts, id });
}

/** A bench or papers without their recipe are kept aside with it. */
function orphaned(key: string): void {
  const raw = read(key);
  known.delete(key);
  if (raw !== null && !saveText(key, raw)) remove(key);
}

function settingsOf(what: string[]): Settings {
  const raw = read(SETTINGS);
  const found = raw === null ? undefined : storedOf(raw, readSettings);
  const settings = found?.stored.value ?? usualSettings();
  if (raw === null) known.set(SETTINGS, { raw, clock: {}, by: '', at: 0, value: settings, base: settings });
  else {
    learn(SETTINGS, raw, { ...(found?.stored ?? { clock: {}, by: '', at: 0 }), value: found?.whole ? settings : undefined }, settings);
    if (!found?.whole) {
      saveText(SETTINGS, raw);
      what.push('the settings');
    }
  }
  return settings;
}

/** With what an older page stored under its one key; what is there in another form already stays beside it. */
function withOld(work: Work, raw: string, what: string[]): Work {
  let bad = false;
  const isBad = (): undefined => void (bad = true);
  const all = parsed(raw);
  const found = isObject(all.value) ? all.value : {};
  const shelf = [...work.shelf];
  const now = Date.now();
  for (const [index, one] of (list(anEntry)(found.shelf, isBad) ?? []).entries()) {
    if (isObject(one.recipe) && all.cut.has(one.recipe)) continue;
    const read = readEntry(one, isBad);
    if (!read) continue;
    // In their order.
    const id = typeof one.id === 'string' && /^[\w-]+$/.test(one.id) ? one.id : newId();
    const kept = entry(read.recipe, { ...read, id, made: now - index });
    const there = shelf.find(({ id }) => id === kept.id);
    if (!there) shelf.push(kept);
    else if (!PARTS.every((part) => same(there[part], kept[part]))) shelf.push({ ...kept, id: newId(), aside: 'as an older page had stored it' });
  }
  const settings = read(SETTINGS) === null ? readSettings(found, isBad) : undefined;
  if (bad || !all.whole || !isObject(all.value)) {
    what.push('what an older page had stored');
    saveText(OLD, raw);
  }
  return { shelf, settings: settings ?? work.settings };
}

const anEntry: Read<Record<string, unknown>> = (value, bad) => (isObject(value) ? value : bad());

/** Stores what has changed. What another tab has stored meanwhile is taken in first. */
export function save(work: Work): Outcome {
  const told: Told[] = [];
  let now = work;
  let refusal: Refusal | undefined;
  const put = (key: string, value: unknown, more: Partial<Stored> = {}) => {
    const mine = known.get(key);
    // What cannot be read is kept before it is written over.
    const waits = inTheWay.get(key);
    const next: Stored = { clock: ticked(mine?.clock ?? {}, ME), by: ME, at: Date.now(), value, ...more };
    const raw = JSON.stringify(next);
    const failed = (waits === undefined ? undefined : saveText(key, waits)) ?? write(key, raw);
    if (failed) refusal = failed;
    else learn(key, raw, next, mine?.base);
  };
  const meet = (key: string) => {
    const outcome = take(now, key);
    now = outcome.work;
    told.push(...outcome.told);
  };
  for (const key of [...now.shelf.filter(isChanged).flatMap(({ id }) => PARTS.map((part) => keyOf(id, part))), SETTINGS]) meet(key);
  // With the first that is stored goes what stood beside it, the example that nobody has changed.
  const first = now.shelf.some(isChanged) && idsOf().length === 0;
  for (const one of now.shelf) {
    if (!isChanged(one) && !first) continue;
    if (read(keyOf(one.id, 'dropped')) !== null) {
      told.push({ is: 'dropped', name: one.recipe.name, here: true });
      remove(keyOf(one.id, 'dropped'));
    }
    for (const part of PARTS) {
      const key = keyOf(one.id, part);
      const there = known.get(key);
      if (there && there.raw !== null && there.value === one[part]) continue;
      put(key, one[part], part === 'recipe' ? { made: one.made, ...(one.aside ? { aside: one.aside } : {}) } : {});
    }
  }
  if (known.get(SETTINGS)?.value !== now.settings) put(SETTINGS, now.settings);
  // What an older page stored may go when all of it stands elsewhere.
  if (old !== null && !refusal) {
    if (read(OLD) === old && !inTheWay.has(OLD)) remove(OLD);
    old = null;
  }
  return { work: now, told, refusal: refusal ?? (isRefused() ? 'refused' : undefined) };
}

/** Whether something of an entry is not stored as it is now. */
const isChanged = (one: Kept): boolean =>
  PARTS.some((part) => {
    const there = known.get(keyOf(one.id, part));
    return there === undefined || there.value !== one[part];
  });

/** Whether all of the work is stored as it is now. */
export const isStored = (work: Work): boolean => !work.shelf.some(isChanged) && known.get(SETTINGS)?.value === work.settings;

/** Takes in what another tab has stored under a key. */
export function take(work: Work, key: string): Outcome {
  const raw = read(key);
  const mine = known.get(key);
  const nothing = { work, told: [] };
  if (raw === (mine?.raw ?? null)) return nothing;
  if (key === SETTINGS) return raw === null ? nothing : takeSettings(work, raw);
  const place = placeOf(key);
  if (!place || place.part === 'dropped') return nothing;
  const { id, part } = place;
  const here = work.shelf.find((one) => one.id === id);
  if (raw === null) return here ? gone(work, here, key) : nothing;
  if (!here) return part === 'recipe' ? arrived(work, id) : nothing;
  const found = storedOf<Kept[Part]>(raw, READ[part] as Read<Kept[Part]>);
  if (!found?.whole) inTheWay.set(key, raw);
  if (!found || !mine) return nothing;
  return met(work, here, part, raw, found.stored, mine);
}

/** All that is stored and not known yet, when this tab may have slept. */
export function takeAll(work: Work): Outcome {
  let now: Outcome = { work, told: [] };
  for (const key of new Set([...keys(ROOT), ...known.keys()])) {
    const next = take(now.work, key);
    now = { work: next.work, told: [...now.told, ...next.told] };
  }
  return now;
}

/** What was deleted elsewhere goes here too, unless it was changed here; what was only lost is stored again. */
function gone(work: Work, here: Kept, key: string): Outcome {
  const deleted = read(keyOf(here.id, 'dropped')) !== null;
  const changed = isChanged(here);
  const mine = known.get(key);
  if (mine) known.set(key, { ...mine, raw: null, value: deleted || changed ? mine.value : undefined });
  if (!deleted || changed) return { work, told: [] };
  for (const part of PARTS) known.delete(keyOf(here.id, part));
  return { work: { ...work, shelf: work.shelf.filter((one) => one !== here) }, told: [{ is: 'dropped', name: here.recipe.name, here: false }] };
}

/** A recipe that another tab has put on the shelf. */
function arrived(work: Work, id: string): Outcome {
  const what: string[] = [];
  const one = entryOf(id, what);
  if (!one) return { work, told: [] };
  const shelf = [...work.shelf, one].sort((a, b) => b.made - a.made);
  const told: Told[] = one.aside ? [{ is: 'copy', id, name: one.recipe.name }] : [];
  return { work: { ...work, shelf }, told: what.length > 0 ? [...told, { is: 'aside', what }] : told };
}

/** Two tabs have a part of an entry, each in its own form. */
function met(work: Work, here: Kept, part: Part, raw: string, theirs: Stored, mine: Known): Outcome {
  const key = keyOf(here.id, part);
  const ours = here[part];
  const changed = ours !== mine.value;
  const seen = covers(theirs.clock, mine.clock);
  const clock = joined(mine.clock, theirs.clock);
  const withPart = (value: unknown, copies: readonly Kept[] = []): Work => ({
    ...work,
    shelf: [...copies, ...work.shelf.map((one) => (one === here ? { ...one, [part]: value } : one))],
  });
  if (same(ours, theirs.value)) {
    learn(key, raw, { ...theirs, clock, value: ours });
    return { work, told: [] };
  }
  if (!changed && seen) {
    learn(key, raw, theirs);
    return { work: withPart(theirs.value), told: [] };
  }
  learn(key, raw, { ...theirs, clock });
  const both = together(part, seen ? mine.value : mine.base, ours, theirs.value);
  if (both !== undefined) return { work: withPart(same(both, theirs.value) ? theirs.value : both), told: [] };
  // The later one stands, the other is kept beside it: by a name that each tab would give it.
  const later = changed || mine.at > theirs.at || (mine.at === theirs.at && mine.by > theirs.by);
  const [by, count] = later ? [theirs.by, theirs.clock[theirs.by]] : [ME, mine.clock[ME]];
  const id = `${here.id}-${by}${count ?? 0}`;
  const copy: Kept = { ...here, [part]: later ? theirs.value : ours, id, made: Date.now(), aside: 'the earlier of two changes, made in two tabs' };
  const copies = work.shelf.some((one) => one.id === id) ? [] : [copy];
  return { work: withPart(later ? ours : theirs.value, copies), told: [{ is: 'copy', id, name: here.recipe.name }] };
}

/** Of settings that were changed in both tabs, those of this one hold. */
function takeSettings(work: Work, raw: string): Outcome {
  const found = storedOf(raw, readSettings);
  const mine = known.get(SETTINGS);
  if (!found?.whole || !mine) return { work, told: [] };
  const { stored } = found;
  learn(SETTINGS, raw, { ...stored, clock: joined(mine.clock, stored.clock) });
  const both = merged<Settings>(mine.value as Settings | undefined, work.settings, stored.value, (ours) => ({ value: ours }));
  const settings = both && !same(both.value, stored.value) ? both.value : stored.value;
  return { work: { ...work, settings }, told: [] };
}

function together(part: Part, base: unknown, ours: unknown, theirs: unknown): unknown {
  if (part === 'papers') return merged(base, ours, theirs)?.value;
  if (part === 'recipe') return undefined;
  const bench = benchOf(base as BenchState | undefined, ours as BenchState, theirs as BenchState);
  return bench && canBe(bench) ? bench : undefined;
}

/** Whether a batch can have gone as its log says. */
function canBe(bench: BenchState): boolean {
  const recipe = recipeOfBench(bench);
  if (!recipe) return bench.begun === 0;
  try {
    follow({ lamella: 'batch/1', recipe, events: bench.log.map((one) => one.event) });
    return true;
  } catch (error) {
    if (error instanceof LamellaError) return false;
    throw error;
  }
}

/** Takes a recipe out of the browser, and lets the other tabs know that it was not lost. */
export function forget(id: string): void {
  write(keyOf(id, 'dropped'), String(Date.now()));
  for (const part of PARTS) {
    remove(keyOf(id, part));
    known.delete(keyOf(id, part));
  }
}

/** Everything that is stored, as it is. */
export const allStored = (): Record<string, string> => Object.fromEntries(keys().map((key) => [key, read(key) ?? '']));

/** Puts all that is stored aside, so that the page begins with nothing; why that cannot be. It is all there then as it was. */
export function putAllAside(): Refusal | undefined {
  const all = [...keys(ROOT), OLD].filter((key) => read(key) !== null);
  const refusal = all.length === 0 ? undefined : putAside('all', JSON.stringify(Object.fromEntries(all.map((key) => [key, read(key)])), null, 1));
  if (!refusal) for (const key of all) remove(key);
  known.clear();
  inTheWay.clear();
  old = null;
  return refusal;
}

/** Where the page was last looked at. */
export const lastView = (): unknown => parsed(read(VIEW) ?? read(OLD) ?? '').value;
export const keepView = (view: unknown): void => void write(VIEW, JSON.stringify(view));
/** Whether what an older page had stored waits to be stored anew. */
export const hasOld = (): boolean => old !== null;
