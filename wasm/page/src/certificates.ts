// What a supplier's certificate states of a line of the recipe. It stands in the recipe as soon as it can be reckoned with;
// until then it is kept beside it, so that a profile half typed breaks no plan and is not lost.
import { LamellaError, readRecipe, type Problem, type Recipe } from './lamella';
import { at, pointer, set, type Path } from './change';
import { edit, kept, papers, setPapers } from './store';

export type CertifiedKind = 'fat' | 'scent';

/** A fat or a scent in the recipe. */
export interface Line {
  path: Path;
  kind: CertifiedKind;
  id: string;
}

/** What a certificate states: fields of the recipe's format. */
export type Stated = Record<string, unknown>;

/** Its place does not count lines, so that leaving out another one does not part it from its own. */
const keyOf = ({ path, kind, id }: Line): string => [...path.slice(0, -1), kind, id].join('/');
const placeOf = (line: Line): Path => [...line.path, 'certificate'];

/** Without what was emptied. */
function pruned(stated: Stated): Stated | undefined {
  const entries = Object.entries(stated).filter(([, value]) => {
    if (value === undefined || value === '') return false;
    if (Array.isArray(value)) return value.length > 0;
    return typeof value !== 'object' || (value !== null && Object.keys(value).length > 0);
  });
  return entries.length > 0 ? Object.fromEntries(entries) : undefined;
}

const unfinishedOf = (line: Line): Stated | undefined => papers().certificates[keyOf(line)];

/** What is stated of a line, reckoned with or not yet. */
export const statedOf = (line: Line): Stated =>
  unfinishedOf(line) ?? (at(kept().recipe, placeOf(line)) as Stated | undefined) ?? {};

/** Whether a certificate is reckoned with, or waits to be finished. */
export function standing(line: Line): 'none' | 'reckoned' | 'unfinished' {
  if (unfinishedOf(line)) return 'unfinished';
  return at(kept().recipe, placeOf(line)) === undefined ? 'none' : 'reckoned';
}

/** What keeps it from being reckoned with; the pointers begin at the certificate. */
export function problemsOf(line: Line, stated: Stated): readonly Problem[] {
  const place = pointer(placeOf(line));
  try {
    readRecipe(set(kept().recipe, placeOf(line), pruned(stated)));
    return [];
  } catch (error) {
    if (!(error instanceof LamellaError)) throw error;
    return error.problems
      .filter((one) => one.pointer === place || one.pointer.startsWith(`${place}/`))
      .map((one) => ({ ...one, pointer: one.pointer.slice(place.length) }));
  }
}

const forget = (line: Line) => unfinishedOf(line) && setPapers((old) => set(old, ['certificates', keyOf(line)], undefined));

/** States something else of a line. */
export function state(line: Line, change: (stated: Stated) => Stated): void {
  const next = pruned(change(statedOf(line)));
  if (problemsOf(line, next ?? {}).length > 0) {
    setPapers((old) => set(old, ['certificates', keyOf(line)], next));
    return;
  }
  forget(line);
  edit((recipe) => set(recipe, placeOf(line), next));
}

/** Goes back to the library. */
export function withdraw(line: Line): void {
  forget(line);
  edit((recipe) => set(recipe, placeOf(line), undefined), 'The figures are those of the library again.');
}

/** The recipe with the library's figures for this line. */
export const byLibrary = (recipe: Recipe, line: Line): Recipe => set(recipe, placeOf(line), undefined);

interface Holder {
  doses?: readonly object[];
  scents?: readonly object[];
}

/** The other lines with the same material, whose certificate is not the same one. */
export function twins(recipe: Recipe, line: Line): Path[] {
  const lists: Path[] = [['fats']];
  const holders: (readonly [Path, Holder | undefined])[] = [
    [[], recipe as Holder],
    [['lye'], recipe.lye as Holder | undefined],
    ...recipe.layers.map((layer, index) => [['layers', index] as Path, layer as Holder] as const),
    ...(recipe.jugs ?? []).map((jug, index) => [['jugs', index] as Path, jug as Holder] as const),
  ];
  for (const [path, holder] of holders) {
    if (holder?.doses) lists.push([...path, 'doses']);
    if (holder?.scents) lists.push([...path, 'scents']);
  }
  const own = JSON.stringify(at(recipe, placeOf(line)));
  return lists.flatMap((list) =>
    ((at(recipe, list) as Record<string, unknown>[] | undefined) ?? []).flatMap((other, index) => {
      const path = [...list, index];
      const same = other[line.kind] === line.id && pointer(path) !== pointer(line.path);
      return same && JSON.stringify(other.certificate) !== own ? [path] : [];
    }),
  );
}

/** The same certificate for all lines of the material. */
export function shareWithTwins(line: Line): void {
  edit((recipe) => {
    const own = at(recipe, placeOf(line));
    return twins(recipe, line).reduce((next, path) => set(next, [...path, 'certificate'], own), recipe);
  }, 'All of it in this recipe has that certificate.');
}
