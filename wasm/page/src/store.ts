// What the page knows: recipes, the one in hand, its plan, and what is looked at. Everything is kept in the browser.
import { useEffect, useState } from 'preact/hooks';
import { example, LamellaError, look as lookOf } from './lamella';
import { sureOf } from './worker';
import type { Certainty, Picture, Plan, Problem, Recipe } from './lamella';
import { set, without } from './change';
import { setUnits } from './units';
import type { BenchState } from './bench-state';
import type { Papers } from './papers';
import * as keep from './kept/keep';
import { recipeOfBench, usualSettings, type Settings } from './kept/read';
import { ROOT, type Refusal } from './kept/storage';
import { firstView, freshView, onBack, seenAs, viewOf, type View } from './views';

export type { Kept } from './kept/keep';
export type { Mode, Paper, Place } from './views';
export { newId } from './kept/keep';
type Kept = keep.Kept;

export interface State extends View, Settings {
  shelf: readonly Kept[];
  /** Which time the warmth is looked at; empty for the hottest moment. */
  moment: string;
  /** Said once, to everyone and to screen readers. */
  notice: string;
  /** What is said until it has been read. */
  told: readonly keep.Told[];
  /** Why what was done is not stored; nothing while it is. */
  refusal: Refusal | undefined;
}

/** What the library makes of the recipe in hand. */
export interface Look {
  recipe: Recipe;
  plan: Plan;
  picture: Picture | null;
  safety: string[];
  /** What keeps the recipe as it stands from being planned; the plan is then that of the last one that could. */
  problems: readonly Problem[];
}

const settingsOf = ({ units, theme, shows, usual }: State): Settings => ({ units, theme, shows, usual });
/** The settings as they were last stored, as long as none of them has changed. */
let settings: Settings = usualSettings();

/** The work as it is stored. */
function whole(): keep.Work {
  const now = settingsOf(state);
  if (Object.entries(now).some(([field, value]) => settings[field as keyof Settings] !== value)) settings = now;
  return { shelf: state.shelf, settings };
}

function first(): State {
  const view = keep.lastView();
  const found = keep.load(example);
  settings = found.work.settings;
  return {
    ...settings,
    ...firstView(found.work.shelf.map((one) => one.id), view),
    shelf: found.work.shelf,
    moment: '',
    notice: '',
    told: found.told,
    refusal: found.refusal,
  };
}

const onPage = typeof document !== 'undefined';
let state: State = first();
let look: Look | undefined;
let seen: Recipe | undefined;
let seenMould = 0;
const past: { id: string; recipe: Recipe }[] = [];
const future: { id: string; recipe: Recipe }[] = [];
const watchers = new Set<() => void>();
let saving = 0;
let unsaved = 0;
/** Whether nothing is stored any more, since what is stored had to be left as it is. */
let blocked = false;

setUnits(state.units);

/** Whether other tabs have changed nothing. */
const isNothing = ({ work, told }: keep.Outcome): boolean => work.shelf === state.shelf && work.settings === settings && told.length === 0;

/** Makes the work of this tab and that of others the state of the page. */
function absorb({ work: found, told }: keep.Outcome): void {
  const before = state.shelf;
  settings = found.settings;
  let { shelf } = found;
  if (shelf.length === 0) shelf = [keep.entry(example())];
  const current = shelf.some((one) => one.id === state.current) ? state.current : shelf[0]!.id;
  const changed = shelf !== before;
  state = { ...state, ...settings, shelf, current, ...(told.length > 0 ? { told: [...state.told, ...told] } : {}) };
  setUnits(state.units);
  if (!changed) return;
  // What was typed into a field here does not hide what now stands in it.
  if (before.find((one) => one.id === current) !== kept()) (document.activeElement as HTMLElement | null)?.blur();
  // What another tab changed can be undone here like what was changed here.
  for (const { id, recipe } of before) {
    const now = shelf.find((one) => one.id === id);
    if (now && now.recipe !== recipe) remember(id, recipe);
  }
}

/** What is nowhere but here is not left by mistake. */
function leaving(event: Event): void {
  save();
  if (state.refusal && (blocked || !keep.isStored(whole()))) event.preventDefault();
}

function refuse(refusal: Refusal | undefined): void {
  state = { ...state, refusal };
  if (refusal) addEventListener('beforeunload', leaving);
  else removeEventListener('beforeunload', leaving);
}

function save(): void {
  clearTimeout(saving);
  saving = 0;
  if (blocked) return;
  const before = state;
  const outcome = keep.save(whole());
  if (!isNothing(outcome)) absorb(outcome);
  if (outcome.refusal !== state.refusal) refuse(outcome.refusal);
  keep.keepView(viewOf(state));
  if (state !== before) tell();
}

/** Saves when nothing has changed for a moment, and in the midst of changes every few seconds: writing all down takes as long
 * as showing an edit. What is at stake at the bench saves at once. */
function saveSoon(): void {
  const now = performance.now();
  if (saving === 0) unsaved = now;
  if (saving !== 0 && now - unsaved > 3000) return;
  clearTimeout(saving);
  saving = window.setTimeout(save, 400);
}

/** Takes in what other tabs have stored, and stores what has come of it. */
function takeIn(outcome: keep.Outcome): void {
  if (blocked || isNothing(outcome)) return;
  absorb(outcome);
  saveSoon();
  tell();
}

if (onPage) {
  if (state.refusal) refuse(state.refusal);
  if (keep.hasOld()) save();
  addEventListener('pagehide', save);
  document.addEventListener('visibilitychange', () => (document.visibilityState === 'hidden' ? save() : takeIn(keep.takeAll(whole()))));
  addEventListener('pageshow', ({ persisted }) => persisted && takeIn(keep.takeAll(whole())));
  addEventListener('storage', ({ key }) => {
    if (key !== null && !key.startsWith(ROOT)) return;
    takeIn(key === null ? keep.takeAll(whole()) : keep.take(whole(), key));
  });
  onBack((view) => {
    const there = state.shelf.some((one) => one.id === view.current);
    state = { ...state, ...view, current: there ? view.current : state.current, notice: '' };
    saveSoon();
    tell();
  });
}

/** Tries again to store what is not stored. */
export const saveNow = (): void => save();

/** Begins with an empty shelf; what is stored is put aside, or left as it is where that cannot be. */
export function startAfresh(): void {
  blocked = keep.putAllAside() !== undefined;
  past.length = 0;
  future.length = 0;
  look = undefined;
  seen = undefined;
  const one = keep.entry(example());
  settings = usualSettings();
  state = {
    ...state,
    ...settings,
    ...freshView(one.id),
    shelf: [one],
    told: [],
    notice: blocked ? 'What was stored is left as it is: there is no room to keep it aside.' : 'What was stored is kept aside: it is listed under Recipes.',
  };
  if (blocked) refuse('full');
  setUnits(state.units);
  tell();
}

export function tell(): void {
  for (const watcher of watchers) watcher();
}

export function put(next: Partial<State>): void {
  if (next.units) setUnits(next.units);
  const before = state;
  state = { ...state, ...next };
  seenAs(before, state);
  saveSoon();
  tell();
}

export const get = (): State => state;

export const kept = (): Kept => state.shelf.find((one) => one.id === state.current) ?? state.shelf[0]!;

function replace(change: (one: Kept) => Kept): void {
  const id = kept().id;
  state = { ...state, shelf: state.shelf.map((one) => (one.id === id ? change(one) : one)) };
}

function remember(id: string, recipe: Recipe): void {
  past.push({ id, recipe });
  if (past.length > 200) past.shift();
  future.length = 0;
}

/** Changes the recipe in hand; the change before can be undone. */
export function edit(change: (recipe: Recipe) => Recipe, notice = ''): void {
  const before = kept().recipe;
  const after = change(before);
  if (after === before) return;
  remember(kept().id, before);
  replace((one) => ({ ...one, recipe: after }));
  put({ notice });
}

function step(from: typeof past, to: typeof past): void {
  const last = from.pop();
  if (!last) return;
  const there = state.shelf.find((one) => one.id === last.id);
  if (!there) return;
  to.push({ id: last.id, recipe: there.recipe });
  state = {
    ...state,
    current: last.id,
    shelf: state.shelf.map((one) => (one.id === last.id ? { ...one, recipe: last.recipe } : one)),
  };
  put({ notice: '' });
}
export const undo = (): void => step(past, future);
export const redo = (): void => step(future, past);
export const canUndo = (): boolean => past.length > 0;
export const canRedo = (): boolean => future.length > 0;

/** Changes what is known of the work at the bench, and keeps it at once. */
export function work(change: (bench: BenchState) => BenchState): void {
  replace((one) => ({ ...one, bench: change(one.bench) }));
  save();
  tell();
}

/** What is kept beside the recipe in hand. */
export const papers = (): Papers => kept().papers;

export function setPapers(change: (papers: Papers) => Papers): void {
  replace((one) => ({ ...one, papers: change(one.papers) }));
  put({});
}

/** What a pack of a material costs and holds; one without a price is not in the list. */
export function setPrice(material: string, field: 'price' | 'pack', value: string | undefined): void {
  setPapers((old) => {
    const list = old.prices.materials;
    const index = list.findIndex((one) => one.material === material);
    const next =
      index < 0
        ? [...list, { material, price: '0', pack: '1 kg', [field]: value ?? '0' }]
        : value === undefined && field === 'price'
          ? without(list, index)
          : set(list, [index, field], value);
    return set(old, ['prices', 'materials'], next);
  });
}

/** Puts what was downloaded as a whole back on the shelf. */
export function takeBack(entries: readonly Pick<Kept, 'recipe' | 'bench' | 'papers'>[], notice: string): void {
  const now = Date.now();
  const back = entries.map((one, index) => keep.entry(one.recipe, { bench: one.bench, papers: one.papers, made: now - index }));
  if (back[0]) put({ shelf: [...back, ...state.shelf], current: back[0].id, place: { at: 'bar' }, mode: 'recipes', mould: 0, notice });
}

/** Puts a recipe on the shelf and in hand. */
export function take(recipe: Recipe, notice: string): void {
  const one = keep.entry(recipe);
  put({ shelf: [one, ...state.shelf], current: one.id, place: { at: 'bar' }, mode: 'plan', mould: 0, notice });
}

export function drop(id: string): void {
  keep.forget(id);
  const shelf = state.shelf.filter((one) => one.id !== id);
  if (shelf.length === 0) shelf.push(keep.entry(example()));
  put({ shelf, current: shelf.some((one) => one.id === state.current) ? state.current : shelf[0]!.id });
}

/** Everything that the library says about a recipe; or its problems. */
export function lookAt(recipe: Recipe, mould: number): Look | { problems: readonly Problem[] } {
  try {
    return { recipe, ...lookOf(recipe, mould), problems: [] };
  } catch (error) {
    if (error instanceof LamellaError) return { problems: error.problems };
    throw error;
  }
}

/** Whether it could be planned. */
export const isLook = (found: Look | { problems: readonly Problem[] }): found is Look => 'plan' in found;

/** The plan of the recipe in hand; that of the last one that could be planned while it cannot. */
export function looked(): Look | { problems: readonly Problem[] } {
  const { recipe } = kept();
  const mould = recipe.moulds && state.mould < recipe.moulds.length ? state.mould : 0;
  if (recipe === seen && mould === seenMould && look) return look;
  const other = seen === undefined || look?.recipe.name !== recipe.name;
  seen = recipe;
  seenMould = mould;
  const found = lookAt(recipe, mould);
  if ('plan' in found) look = found;
  else if (look && !other) look = { ...look, problems: found.problems };
  else {
    look = undefined;
    seen = undefined;
    return found;
  }
  return look;
}

/** The plan of the recipe that lies on the bench. */
export function lookOfBench(): Look | undefined {
  const { bench } = kept();
  const recipe = bench.begun > 0 ? recipeOfBench(bench) : undefined;
  const found = recipe && lookAt(recipe, 0);
  return found && isLook(found) ? found : undefined;
}

let sure: { recipe: Recipe; certainty: Certainty | undefined } | undefined;
let asking: Recipe | undefined;

/** How sure the superfats of a recipe are; those of the last one until that is reckoned, a moment after a change. */
export function useCertainty(recipe: Recipe): Certainty | undefined {
  useEffect(() => {
    if (sure?.recipe === recipe) return;
    const later = setTimeout(() => {
      if (asking === recipe) return;
      asking = recipe;
      void sureOf(recipe).then((certainty) => {
        if (asking !== recipe) return;
        asking = undefined;
        sure = { recipe, certainty };
        tell();
      });
    }, 200);
    return () => clearTimeout(later);
  }, [recipe]);
  return sure?.certainty;
}

/** Renders again when anything changes. */
export function useStore(): State {
  const [, again] = useState(0);
  useEffect(() => {
    const watcher = () => again((count) => count + 1);
    watchers.add(watcher);
    return () => void watchers.delete(watcher);
  }, []);
  return state;
}
