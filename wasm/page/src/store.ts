// What the page knows: recipes, the one in hand, its plan, and what is looked at. Everything is kept in the browser.
import { useEffect, useState } from 'preact/hooks';
import { example, LamellaError, look as lookOf } from './lamella';
import { sureOf } from './worker';
import type { Certainty, Picture, Plan, Problem, Recipe, Trial } from './lamella';
import { set, without } from './change';
import { setUnits, USUAL, type Units } from './units';
import { emptyBench, type BenchState } from './bench-state';
import { noPapers, papersOf, type Papers } from './papers';

export type Place =
  | { at: 'bar' }
  | { at: 'layer'; index: number }
  | { at: 'fats' | 'lye' | 'mould' | 'workshop' | 'batch'; /** What of it is asked for. */ part?: 'setting' };

export type Mode = 'plan' | 'bench' | 'after' | 'recipes';

/** What is looked at afterwards. */
export type Paper = 'sheet' | 'label' | 'composition' | 'cost' | 'cure' | 'trial' | 'record' | 'heat' | 'causes';

/** A recipe on the shelf. */
export interface Kept {
  id: string;
  recipe: Recipe;
  bench: BenchState;
  papers: Papers;
}

export interface State {
  shelf: Kept[];
  current: string;
  mode: Mode;
  place: Place;
  paper: Paper;
  mould: number;
  /** What the picture shows of the layers. */
  shows: 'colour' | 'warmth';
  /** Which time the warmth is looked at; empty for the hottest moment. */
  moment: string;
  units: Units;
  theme: '' | 'light' | 'dark';
  /** The bar that others are held against, of whatever recipe. */
  usual: Trial | undefined;
  /** Said once, to everyone and to screen readers. */
  notice: string;
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

const KEY = 'lamella/1';
let seed = 0;
export const newId = (): string => `${Date.now().toString(36)}${(seed += 1).toString(36)}`;

const fresh = (recipe: Recipe): Kept => ({ id: newId(), recipe, bench: emptyBench(), papers: noPapers() });

function first(): State {
  const kept = fresh(example());
  return {
    shelf: [kept],
    current: kept.id,
    mode: 'plan',
    place: { at: 'bar' },
    paper: 'sheet',
    mould: 0,
    shows: 'colour',
    moment: '',
    units: USUAL,
    theme: '',
    usual: undefined,
    notice: '',
  };
}

function stored(): State {
  const start = first();
  try {
    const text = localStorage.getItem(KEY);
    if (!text) return start;
    const found = JSON.parse(text) as Partial<State>;
    const shelf = (found.shelf ?? []).filter((kept) => kept && typeof kept.recipe === 'object' && kept.id);
    if (shelf.length === 0) return start;
    for (const kept of shelf) {
      kept.bench = { ...emptyBench(), ...kept.bench };
      kept.papers = papersOf(kept.papers);
    }
    const current = shelf.some((kept) => kept.id === found.current) ? found.current! : shelf[0]!.id;
    return { ...start, ...found, shelf, current, notice: '', place: { at: 'bar' }, mould: 0 };
  } catch {
    return start;
  }
}

let state: State = stored();
let look: Look | undefined;
let seen: Recipe | undefined;
let seenMould = 0;
const past: { id: string; recipe: Recipe }[] = [];
const future: { id: string; recipe: Recipe }[] = [];
const watchers = new Set<() => void>();
let saving = 0;
let unsaved = 0;

setUnits(state.units);

function save(): void {
  clearTimeout(saving);
  saving = 0;
  try {
    localStorage.setItem(KEY, JSON.stringify({ ...state, notice: '', place: undefined }));
  } catch {
    if (state.notice === '') put({ notice: 'This browser keeps nothing: save the recipe to a file.' });
  }
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
if (typeof document !== 'undefined') {
  addEventListener('pagehide', save);
  document.addEventListener('visibilitychange', () => document.visibilityState === 'hidden' && save());
}

export function tell(): void {
  for (const watcher of watchers) watcher();
}

export function put(next: Partial<State>): void {
  if (next.units) setUnits(next.units);
  state = { ...state, ...next };
  saveSoon();
  tell();
}

export const get = (): State => state;

export const kept = (): Kept => state.shelf.find((one) => one.id === state.current) ?? state.shelf[0]!;

function replace(change: (one: Kept) => Kept): void {
  const id = kept().id;
  state = { ...state, shelf: state.shelf.map((one) => (one.id === id ? change(one) : one)) };
}

/** Changes the recipe in hand; the change before can be undone. */
export function edit(change: (recipe: Recipe) => Recipe, notice = ''): void {
  const before = kept().recipe;
  const after = change(before);
  if (after === before) return;
  past.push({ id: kept().id, recipe: before });
  if (past.length > 200) past.shift();
  future.length = 0;
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

/** Puts a recipe on the shelf and in hand. */
export function take(recipe: Recipe, notice: string): void {
  const one = fresh(recipe);
  put({ shelf: [one, ...state.shelf], current: one.id, place: { at: 'bar' }, mode: 'plan', mould: 0, notice });
}

export function drop(id: string): void {
  const shelf = state.shelf.filter((one) => one.id !== id);
  if (shelf.length === 0) shelf.push(fresh(example()));
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
