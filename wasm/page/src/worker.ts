// What takes long is reckoned beside the page: the same script, run as a worker.
import { advice, certainty, heat, heatSvg, LamellaError } from './lamella';
import type { Advice, Certainty, Heat, HeatForecast, Problem, Recipe } from './lamella';

export interface Warm {
  forecast: HeatForecast;
  svg: string;
}
type Ask = { recipe: Recipe } & (
  | { what: 'heat'; setting: Heat; fahrenheit: boolean }
  | { what: 'certainty' }
  | { what: 'advice' }
);
type Found = { answer: unknown } | { problems: readonly Problem[] };

function reckon(ask: Ask): Found {
  try {
    switch (ask.what) {
      case 'heat':
        return {
          answer: {
            forecast: heat(ask.recipe, ask.setting),
            svg: heatSvg(ask.recipe, ask.fahrenheit, ask.setting),
          },
        };
      case 'certainty':
        return { answer: certainty(ask.recipe) };
      case 'advice':
        return { answer: advice(ask.recipe) };
    }
  } catch (error) {
    if (error instanceof LamellaError) return { problems: error.problems };
    throw error;
  }
}

/** The worker's side. */
export function serve(): void {
  addEventListener('message', ({ data }: MessageEvent<{ id: number; ask: Ask }>) =>
    postMessage({ id: data.id, found: reckon(data.ask) }),
  );
}

let worker: Worker | undefined;
let broken = false;
let asked = 0;
const waiting = new Map<number, { ask: Ask; take: (found: Found) => void }>();

function start(): Worker | undefined {
  if (worker || broken) return broken ? undefined : worker;
  // Only the page that is one file has its script at hand.
  const script = document.querySelector('script[type=module]:not([src])');
  if (!script?.textContent) return undefined;
  const url = URL.createObjectURL(new Blob([script.textContent], { type: 'text/javascript' }));
  worker = new Worker(url);
  worker.addEventListener('message', ({ data }: MessageEvent<{ id: number; found: Found }>) => {
    waiting.get(data.id)?.take(data.found);
    waiting.delete(data.id);
  });
  worker.addEventListener('error', () => {
    // Without a worker it is reckoned here.
    broken = true;
    for (const { ask, take } of waiting.values()) take(reckon(ask));
    waiting.clear();
  });
  return worker;
}

function beside(ask: Ask): Promise<Found> {
  return new Promise((take) => {
    const other = start();
    if (!other) return take(reckon(ask));
    const id = (asked += 1);
    waiting.set(id, { ask, take });
    other.postMessage({ id, ask });
  });
}

/** Forecasts the heat of a recipe. */
export async function warm(recipe: Recipe, setting: Heat, fahrenheit: boolean): Promise<Warm | readonly Problem[]> {
  const found = await beside({ what: 'heat', recipe, setting, fahrenheit });
  return 'problems' in found ? found.problems : (found.answer as Warm);
}

/** How sure the superfats of a recipe are; nothing while it cannot be planned. */
export async function sureOf(recipe: Recipe): Promise<Certainty | undefined> {
  const found = await beside({ what: 'certainty', recipe });
  return 'problems' in found ? undefined : (found.answer as Certainty | undefined);
}

/** The superfat and the scale that are on the safe side. */
export async function safeOf(recipe: Recipe): Promise<Advice | undefined> {
  const found = await beside({ what: 'advice', recipe });
  return 'problems' in found ? undefined : (found.answer as Advice);
}
