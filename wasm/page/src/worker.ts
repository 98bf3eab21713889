// What takes long is reckoned beside the page: the same script, run as a worker.
import { heat, heatSvg, LamellaError } from './lamella';
import type { Heat, HeatForecast, Problem, Recipe } from './lamella';

export interface Warm {
  forecast: HeatForecast;
  svg: string;
}
interface Ask {
  id: number;
  recipe: Recipe;
  setting: Heat;
  fahrenheit: boolean;
}
type Said = { id: number; warm: Warm } | { id: number; problems: readonly Problem[] };

function reckon({ id, recipe, setting, fahrenheit }: Ask): Said {
  try {
    return { id, warm: { forecast: heat(recipe, setting), svg: heatSvg(recipe, fahrenheit, setting) } };
  } catch (error) {
    if (error instanceof LamellaError) return { id, problems: error.problems };
    throw error;
  }
}

/** The worker's side. */
export function serve(): void {
  addEventListener('message', (event: MessageEvent<Ask>) => postMessage(reckon(event.data)));
}

let worker: Worker | undefined;
let asked = 0;
const waiting = new Map<number, (said: Said) => void>();

function start(): Worker | undefined {
  if (worker) return worker;
  const script = document.querySelector('script[type=module]:not([src])');
  if (!script?.textContent) return undefined;
  const url = URL.createObjectURL(new Blob([script.textContent], { type: 'text/javascript' }));
  worker = new Worker(url, { type: 'module' });
  worker.addEventListener('message', (event: MessageEvent<Said>) => {
    waiting.get(event.data.id)?.(event.data);
    waiting.delete(event.data.id);
  });
  return worker;
}

/** Forecasts the heat of a recipe without holding the page up. */
export function warm(recipe: Recipe, setting: Heat, fahrenheit: boolean): Promise<Warm | readonly Problem[]> {
  const ask: Ask = { id: (asked += 1), recipe, setting, fahrenheit };
  return new Promise((resolve) => {
    const take = (said: Said) => resolve('warm' in said ? said.warm : said.problems);
    const beside = start();
    if (!beside) return take(reckon(ask));
    waiting.set(ask.id, take);
    beside.postMessage(ask);
  });
}
