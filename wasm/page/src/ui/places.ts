// What is wrong with a place of the recipe, what deserves a look there, and how it is changed.
import { pointer, set, type Path } from '../change';
import { edit, type Look } from '../store';

/** The first problem of a place. */
export const problemAt = (look: Look, path: Path) => look.problems.find((one) => one.pointer === pointer(path));
/** Another value at a place of the recipe. */
export const setAt = (path: Path, value: unknown, notice = '') => edit((recipe) => set(recipe, path, value), notice);
/** The cautions of places, and of what is below them. */
export const under = (look: Look, ...places: string[]) =>
  look.plan.cautions.filter((caution) =>
    places.some((place) => caution.pointer === place || caution.pointer.startsWith(`${place}/`)),
  );
