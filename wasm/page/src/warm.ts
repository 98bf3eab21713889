// How warm a recipe gets: one forecast for the picture, the layers, the waits at the bench and the paper of heat.
import { useEffect } from 'preact/hooks';
import type { Heat, Problem, Recipe } from './lamella';
import { get, papers, tell } from './store';
import { warm as warmOf, type Warm } from './worker';

interface Asked {
  recipe: Recipe;
  heat: Heat;
  fahrenheit: boolean;
}

export interface Warming {
  /** The forecast; nothing until it is reckoned. */
  warm?: Warm;
  /** What keeps it from being made. */
  problems?: readonly Problem[];
  /** The last one, while another is reckoned and the layers are still the same. */
  last?: Warm;
}

let asking: Asked | undefined;
let answered: (Asked & { found: Warm | readonly Problem[] }) | undefined;
let last: { names: string; warm: Warm } | undefined;

const same = (one: Asked | undefined, other: Asked): boolean =>
  one?.recipe === other.recipe && one.heat === other.heat && one.fahrenheit === other.fahrenheit;
const namesOf = (recipe: Recipe): string => JSON.stringify(recipe.layers.map((layer) => layer.layer));

async function ask(asked: Asked): Promise<void> {
  if (same(asking, asked) || same(answered, asked)) return;
  asking = asked;
  const found = await warmOf(asked.recipe, asked.heat, asked.fahrenheit);
  if (!same(asking, asked)) return;
  asking = undefined;
  answered = { ...asked, found };
  if ('forecast' in found) last = { names: namesOf(asked.recipe), warm: found };
  tell();
}

/** How warm a recipe gets in what it sets in; reckoned a while after the last change. */
export function useWarm(recipe: Recipe, wait = 900): Warming {
  const { heat } = papers();
  const fahrenheit = get().units.temperature === '°F';
  const asked = { recipe, heat, fahrenheit };
  useEffect(() => {
    if (same(answered, asked)) return;
    const later = setTimeout(() => void ask(asked), wait);
    return () => clearTimeout(later);
  }, [recipe, heat, fahrenheit]);
  if (answered && same(answered, asked)) {
    return 'forecast' in answered.found ? { warm: answered.found } : { problems: answered.found };
  }
  return last?.names === namesOf(recipe) ? { last: last.warm } : {};
}
