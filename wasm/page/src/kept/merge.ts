// How the work of two tabs becomes one: by revisions first, then by what each of them changed. Nothing here knows the browser.
import type { BenchState } from '../bench-state';

/** How often each tab has saved a thing. */
export type Clock = Record<string, number>;

/** Whether the one knows everything that the other does. */
export const covers = (one: Clock, other: Clock): boolean =>
  Object.entries(other).every(([tab, count]) => (one[tab] ?? 0) >= count);

export function joined(one: Clock, other: Clock): Clock {
  const both = { ...one };
  for (const [tab, count] of Object.entries(other)) both[tab] = Math.max(both[tab] ?? 0, count);
  return both;
}

/** How many tabs a clock knows at most; those that never came back leave it, the oldest first. */
const MOST_TABS = 24;

/** The clock after one more save of a tab, which then stands last in it. */
export function ticked(clock: Clock, tab: string): Clock {
  const { [tab]: count = 0, ...others } = clock;
  return Object.fromEntries([...Object.entries(others).slice(1 - MOST_TABS), [tab, count + 1]]);
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Whether two things would be saved as the same. */
export function same(one: unknown, other: unknown): boolean {
  if (one === other) return true;
  if (Array.isArray(one)) {
    return Array.isArray(other) && one.length === other.length && one.every((inner, index) => same(inner, other[index]));
  }
  if (!isObject(one) || !isObject(other)) return false;
  return [...new Set([...Object.keys(one), ...Object.keys(other)])].every((field) => same(one[field], other[field]));
}

/** What is left when both have changed the same thing: nothing, or the choice of the one who asks. */
export type Clash = (ours: unknown, theirs: unknown) => { value: unknown } | undefined;

/** What both made of the same base, field by field; nothing where both changed the same one. */
export function merged<T>(base: T | undefined, ours: T, theirs: T, clash: Clash = () => undefined): { value: T } | undefined {
  if (same(ours, theirs) || same(theirs, base)) return { value: ours };
  if (same(ours, base)) return { value: theirs };
  if (!isObject(ours) || !isObject(theirs)) return clash(ours, theirs) as { value: T } | undefined;
  const from: Record<string, unknown> = isObject(base) ? base : {};
  const both: Record<string, unknown> = {};
  for (const field of new Set([...Object.keys(theirs), ...Object.keys(ours)])) {
    const inner = merged<unknown>(from[field], ours[field], theirs[field], clash);
    if (!inner) return undefined;
    if (inner.value !== undefined) both[field] = inner.value;
  }
  return { value: both as T };
}

type Entry = BenchState['log'][number];

function byKey(log: readonly Entry[]): Map<string, Entry[]> {
  const steps = new Map<string, Entry[]>();
  for (const entry of log) steps.set(entry.key, [...(steps.get(entry.key) ?? []), entry]);
  return steps;
}
const timeless = (entries: readonly Entry[] | undefined): unknown => entries?.map(({ event: { at: _, ...event } }) => event);

/** What is said of a step: by one tab, or by both alike. */
function ofStep(base: Entry[] | undefined, ours: Entry[] | undefined, theirs: Entry[] | undefined): { value: Entry[] } | undefined {
  if (same(timeless(ours), timeless(theirs)) || same(ours, base)) return { value: theirs ?? [] };
  if (same(theirs, base)) return { value: ours ?? [] };
  return undefined;
}

/** The steps of both tabs, in the order of the clock; nothing where both say something else of the same step. */
function logOf(base: readonly Entry[], ours: readonly Entry[], theirs: readonly Entry[]): Entry[] | undefined {
  const [was, own, other] = [byKey(base), byKey(ours), byKey(theirs)];
  const log: Entry[] = [];
  for (const key of new Set([...other.keys(), ...own.keys()])) {
    const step = ofStep(was.get(key), own.get(key), other.get(key));
    if (!step) return undefined;
    const from = step.value[0]?.event.at;
    // A step of this tab alone goes where its time puts it; the others stay as they stand.
    const later = other.has(key) || from === undefined ? -1 : log.findIndex(({ event }) => event.at !== undefined && event.at > from);
    log.splice(later < 0 ? log.length : later, 0, ...step.value);
  }
  return log;
}

/** Keys that either has added, without those that either has taken away. */
function doneOf(base: readonly string[], ours: readonly string[], theirs: readonly string[]): string[] {
  const gone = new Set(base.filter((key) => !ours.includes(key) || !theirs.includes(key)));
  return [...new Set([...theirs, ...ours])].filter((key) => !gone.has(key));
}

/** The bench as two tabs have worked at it; nothing where the two cannot both be so. */
export function benchOf(base: BenchState | undefined, ours: BenchState, theirs: BenchState): BenchState | undefined {
  const from = base ?? { done: [], at: '', log: [], timers: {}, begun: 0, recipe: '' };
  const restarted = ours.begun !== theirs.begun;
  // Begun in both is one beginning; cleared or begun anew beside work of the other is not.
  if (restarted && (from.begun !== 0 || ours.begun === 0 || theirs.begun === 0)) return undefined;
  const recipe = merged(restarted ? undefined : from.recipe, ours.recipe, theirs.recipe);
  const log = logOf(from.log, ours.log, theirs.log);
  const timers = merged(from.timers, ours.timers, theirs.timers, (own) => ({ value: own }));
  if (!recipe || !log || !timers) return undefined;
  const done = doneOf(from.done, ours.done, theirs.done);
  return { done, at: ours.at, log, timers: timers.value, begun: Math.min(ours.begun, theirs.begun), recipe: recipe.value };
}
