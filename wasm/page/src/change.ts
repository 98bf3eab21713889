// Changes of a recipe: where things stand, not what they amount to.
import type { Plan, Recipe, RecipeFat, RecipeLayer } from './lamella';
import { makeRoom, rest, sharesOf } from './lamella';

export type Path = readonly (string | number)[];

/** The value at a path; undefined where there is none. */
export function at(thing: unknown, path: Path): unknown {
  let found: unknown = thing;
  for (const step of path) {
    if (found === null || typeof found !== 'object') return undefined;
    found = (found as Record<string | number, unknown>)[step];
  }
  return found;
}

/** The same thing with another value at a path; `undefined` takes a field away. */
export function set<T>(thing: T, path: Path, value: unknown): T {
  const [step, ...below] = path;
  if (step === undefined) return value as T;
  if (Array.isArray(thing)) {
    const list = thing.slice();
    list[Number(step)] = set(list[Number(step)], below, value);
    return list as T;
  }
  const object: Record<string, unknown> = { ...(thing as Record<string, unknown> | undefined) };
  const inner = set(object[step], below, value);
  if (inner === undefined) delete object[step];
  else object[step] = inner;
  return object as T;
}

export const without = <T>(list: readonly T[], index: number): T[] => list.filter((_, i) => i !== index);

export function moved<T>(list: readonly T[], from: number, to: number): T[] {
  const out = list.slice();
  const [one] = out.splice(from, 1);
  if (one !== undefined) out.splice(to, 0, one);
  return out;
}

export const pointer = (path: Path): string => path.map((step) => `/${step}`).join('');

/** Where the doses of a layer stand: with it, or with the jug that it shares. */
export function home(recipe: Recipe, index: number): Path {
  const layer = recipe.layers[index];
  const jugs = recipe.jugs ?? [];
  const jug = jugs.findIndex((one) => one.jug === layer?.jug);
  if (layer?.jug === undefined || jug < 0) return ['layers', index];
  const there = jugs[jug]!;
  const shared = recipe.layers.filter((one) => one.jug === layer.jug).length > 1;
  const has = [there.doses, there.colours, there.scents].some((list) => (list?.length ?? 0) > 0);
  return shared || has ? ['jugs', jug] : ['layers', index];
}

const LISTS = ['doses', 'colours', 'scents'] as const;

/** Jugs that no layer is poured from are put away. */
function tidy(recipe: Recipe): Recipe {
  const used = new Set(recipe.layers.map((layer) => layer.jug));
  const jugs = (recipe.jugs ?? []).filter((jug) => used.has(jug.jug));
  return set(recipe, ['jugs'], jugs.length > 0 ? jugs : undefined);
}

/** Pours a layer from another jug; nothing for one of its own. A jug holds one mixture: that of the jug is kept. */
export function useJug(recipe: Recipe, index: number, name: string | undefined): Recipe {
  const layer = recipe.layers[index]!;
  const from = at(recipe, home(recipe, index)) as RecipeLayer;
  const copied: RecipeLayer = { layer: layer.layer, share: layer.share };
  if (name === undefined) {
    for (const list of LISTS) if (from[list]?.length) Object.assign(copied, { [list]: from[list] });
    return tidy(set(recipe, ['layers', index], copied));
  }
  let next = recipe;
  let jug = (next.jugs ?? []).findIndex((one) => one.jug === name);
  if (jug < 0) {
    next = set(next, ['jugs'], [...(next.jugs ?? []), { jug: name }]);
    jug = next.jugs!.length - 1;
  }
  // The layer that is in that jug already gives its mixture to the jug.
  const other = next.layers.findIndex((one, i) => i !== index && one.jug === name);
  if (other >= 0) {
    for (const list of LISTS) {
      const own = next.layers[other]![list];
      if (own?.length) {
        next = set(next, ['jugs', jug, list], own);
        next = set(next, ['layers', other, list], undefined);
      }
    }
    next = set(next, ['layers', index], { ...copied, jug: name });
  } else {
    next = set(next, ['layers', index], { ...layer, jug: name });
  }
  return tidy(next);
}

/** Pours a layer from the jug of another. */
export function shareJug(recipe: Recipe, index: number, other: number): Recipe {
  const there = recipe.layers[other]!;
  if (there.jug !== undefined) return useJug(recipe, index, there.jug);
  const name = free(`${there.layer} jug`, (recipe.jugs ?? []).map((jug) => jug.jug));
  const next = useJug(recipe, other, name);
  return useJug(next, index, name);
}

/** A name that nothing else has. */
export function free(name: string, taken: readonly string[]): string {
  let found = name;
  for (let count = 2; taken.includes(found); count += 1) found = `${name} ${count}`;
  return found;
}

/** Which fat takes up what the others leave: the one with the largest share that is not the one just changed. */
export function restFat(recipe: Recipe, changed: number, chosen: number): number {
  if (chosen >= 0 && chosen !== changed && chosen < recipe.fats.length) return chosen;
  let best = -1;
  recipe.fats.forEach((line, index) => {
    if (index === changed) return;
    if (best < 0 || parseFloat(line.share ?? '0') > parseFloat(recipe.fats[best]!.share ?? '0')) best = index;
  });
  return best;
}

/** Another share for a fat; the one at `taker` takes up the difference as long as it can. */
export function fatShare(recipe: Recipe, index: number, share: string, taker: number): Recipe {
  let next = set(recipe, ['fats', index, 'share'], share);
  const taking = restFat(recipe, index, taker);
  if (taking >= 0) {
    try {
      const left = rest(next.fats.map((line) => line.share ?? '0 %'), taking);
      if (left !== undefined) next = set(next, ['fats', taking, 'share'], left);
    } catch {
      // A share that is none is told by the reader of the recipe.
    }
  }
  return next;
}

/** One fat more, with a share of its own; the others make room. */
export function addFat(recipe: Recipe, id: string, share: string): Recipe {
  if (recipe.fats.some((line) => line.mass !== undefined)) {
    return set(recipe, ['fats'], [...recipe.fats, { fat: id, mass: '50 g' }]);
  }
  const room = makeRoom(recipe.fats.map((line) => line.share ?? '0 %'), share);
  if (!room) return recipe;
  const fats = recipe.fats.map((line, index) => ({ ...line, share: room[index]! }));
  return set(recipe, ['fats'], [...fats, { fat: id, share }]);
}

/** One fat less; the others take its place. */
export function dropFat(recipe: Recipe, index: number): Recipe {
  const fats = without(recipe.fats, index);
  if (fats.length === 0) return recipe;
  if (fats.some((line) => line.share === undefined)) return set(recipe, ['fats'], fats);
  const room = makeRoom(fats.map((line) => line.share ?? '0 %'), '0 %');
  return set(recipe, ['fats'], room ? fats.map((line, i) => ({ ...line, share: room[i]! })) : fats);
}

/** The recipe with the weight of an empty jug; a jug is named as in the plan, by itself or by its only layer. */
export function withTare(recipe: Recipe, name: string, tare: string | undefined): Recipe {
  const jug = (recipe.jugs ?? []).findIndex((one) => one.jug === name);
  if (jug >= 0) return set(recipe, ['jugs', jug, 'tare'], tare);
  const layer = recipe.layers.findIndex((one) => one.jug === undefined && one.layer === name);
  if (layer < 0 || tare === undefined) return recipe;
  const next = set(recipe, ['jugs'], [...(recipe.jugs ?? []), { jug: name, tare }]);
  return set(next, ['layers', layer, 'jug'], name);
}

/** The fats by weight, as a plan has them weighed; they then say how large the batch is. */
export function byWeight(recipe: Recipe, plan: Plan): Recipe {
  const items = [...plan.pot.fats, ...plan.jugs.flatMap((jug) => jug.held)];
  const fats = recipe.fats.map((line, index): RecipeFat => {
    const { share: _, ...rest } = line;
    return { ...rest, mass: items.find((one) => one.pointer === `/fats/${index}`)?.weighed ?? line.mass ?? '100 g' };
  });
  return set(set(recipe, ['fats'], fats), ['size'], undefined);
}

/** The shares of the fats, also of those by weight. */
export const sharesOfFats = (fats: readonly RecipeFat[]): (string | undefined)[] | undefined =>
  fats.some((line) => line.mass !== undefined) ? sharesOf(fats.map((line) => line.mass ?? '0 g')) : fats.map((line) => line.share);

/** The fats in shares, and the batch as large as it was. */
export function byShare(recipe: Recipe, plan: Plan): Recipe {
  const shares = sharesOfFats(recipe.fats);
  if (!shares) return recipe;
  const fats = recipe.fats.map(({ mass: _, ...line }, index): RecipeFat => ({ ...line, share: shares[index] ?? '0 %' }));
  return set(set(recipe, ['fats'], fats), ['size'], { fat: plan.batch.fat });
}

/** The fats of a blend in shares; what is known of those that were there, such as a certificate, stays with them. */
export function blended(recipe: Recipe, found: readonly RecipeFat[]): Recipe {
  const fats = found.map((line): RecipeFat => {
    const { mass: _, ...old } = recipe.fats.find((one) => one.fat === line.fat) ?? { fat: line.fat };
    return { ...old, ...line };
  });
  return set(recipe, ['fats'], fats);
}
