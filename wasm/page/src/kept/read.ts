// What each part of the work looks like where it is stored.
import type { Recipe, Trial } from '../lamella';
import { emptyBench, type BenchState } from '../bench-state';
import { noPapers, papersOf, type Papers } from '../papers';
import { USUAL, type Units } from '../units';
import { anything, isObject, leaf, list, number, object, oneOf, parsed, text, type Read } from './shape';

/** What holds for all recipes. */
export interface Settings {
  units: Units;
  theme: '' | 'light' | 'dark';
  /** What the picture shows of the layers. */
  shows: 'colour' | 'warmth';
  /** The bar that others are held against, of whatever recipe. */
  usual: Trial | undefined;
}

export const usualSettings = (): Settings => ({ units: USUAL, theme: '', shows: 'colour', usual: undefined });

const fields = object({}, leaf);
const map = <T>(of: Read<T>) => object({}, of) as Read<Record<string, T>>;

/** A recipe need not be one that can be planned: it may have been left half typed. What is wrong in it the library says. */
export const readRecipe: Read<Recipe> = (value, bad) =>
  isObject(value) && typeof value.name === 'string' && !Object.hasOwn(value, '__proto__') ? (value as unknown as Recipe) : bad();

const EVENT = object({}, text);
const LOG = list(object({ key: text, event: EVENT }, anything, 'key', 'event'));
const BENCH = object(
  { done: list(text), at: text, log: LOG, timers: map(object({ ends: number, minutes: number }, anything, 'ends', 'minutes')), begun: number, recipe: text },
  anything,
);

/** The recipe that lies on a bench. */
export function recipeOfBench(bench: BenchState): Recipe | undefined {
  const { value, whole } = parsed(bench.recipe);
  return whole ? readRecipe(value, () => undefined) : undefined;
}

export const readBench: Read<BenchState> = (value, bad) => {
  const bench = { ...emptyBench(), ...(BENCH(value, bad) as Partial<BenchState> | undefined) };
  if (bench.begun === 0 || recipeOfBench(bench)) return bench;
  bad();
  return emptyBench();
};

const SHEETS = list(object({ sheet: text, thickness: text }, anything, 'sheet', 'thickness'));
const HEAT = object(
  {
    lamella: oneOf('heat/1'),
    mould: number,
    walls: SHEETS,
    base: SHEETS,
    surroundings: list(object({ from: text, air: text, cover: SHEETS, around: SHEETS }, anything, 'from', 'air')),
    pours: list(object({ at: text, temperature: text }, anything, 'at')),
    until: text,
    own: map(text),
  },
  anything,
  'lamella',
);
const TRIAL = object(
  {
    lamella: oneOf('trial/1'),
    batch: text,
    foam: object({ height: text, later: text, after: text }, anything, 'height'),
    washes: object({ count: number, before: text, after: text }, anything, 'count'),
    ph: object({ value: text, solution: text }, anything, 'value'),
  },
  text,
  'lamella',
  'batch',
);
const LINES = list(fields);
const RECORD = object(
  {
    operators: list(text),
    equipment: LINES,
    scale_checks: LINES,
    lots: LINES,
    weighings: LINES,
    temperatures: LINES,
    layers: LINES,
    events: LINES,
    deviations: LINES,
    checks: LINES,
    holds: LINES,
    output: fields,
    samples: fields,
    release: fields,
  },
  leaf,
);
const PRICES = object(
  {
    lamella: oneOf('prices/1'),
    currency: text,
    decimals: number,
    bars: number,
    materials: list(object({ material: text, price: text, pack: text }, anything, 'material', 'price', 'pack')),
    labour: object({ rate: text, time: text }, anything, 'rate', 'time'),
    overheads: list(object({})),
    packaging: list(object({})),
    margin: map(text),
  },
  text,
  'lamella',
  'currency',
  'materials',
);
const WEIGHING = object({ date: text, age: text, mass: text }, anything, 'mass');
const WEIGHINGS = object(
  { lamella: oneOf('weighings/1'), batch: text, bars: list(object({ bar: text, weighings: list(WEIGHING) }, anything, 'bar', 'weighings')) },
  text,
  'lamella',
  'batch',
  'bars',
);
const ALLERGENS = list(object({ allergen: text, share: text }, anything, 'allergen'));
const PAPERS = object(
  {
    facts: object({ precautions: list(text) }, text),
    assessment: object({}),
    prices: PRICES,
    weighings: WEIGHINGS,
    stock: map(text),
    fresh: text,
    record: RECORD,
    trial: TRIAL,
    heat: HEAT,
    certificates: map(object({ profile: map(text), allergens: ALLERGENS }, leaf)),
    // Of an older page.
    lots: LINES,
    room: text,
  },
  anything,
);

export const readPapers: Read<Papers> = (value, bad) => papersOf(PAPERS(value, bad) as Parameters<typeof papersOf>[0]);

const SETTINGS = object({
  units: object({
    mass: oneOf('g', 'oz', 'lb'),
    length: oneOf('mm', 'in'),
    temperature: oneOf('°C', '°F'),
    comma: oneOf('', '.', ','),
  }),
  theme: oneOf('', 'light', 'dark'),
  shows: oneOf('colour', 'warmth'),
  usual: TRIAL,
});

export const readSettings: Read<Settings> = (value, bad) => {
  const { units, theme = '', shows = 'colour', usual } = (SETTINGS(value, bad) ?? {}) as Partial<Settings>;
  return { units: { ...USUAL, ...units }, theme, shows, usual };
};

/** What is written of an entry into a file of everything. */
export interface Entry {
  recipe: Recipe;
  bench: BenchState;
  papers: Papers;
}

/** An entry of a file or of an older page; without a recipe it is none. */
export const readEntry: Read<Entry> = (value, bad) => {
  const found = isObject(value) ? value : {};
  const recipe = readRecipe(found.recipe, bad);
  if (!recipe) return undefined;
  const bench = found.bench == null ? emptyBench() : (readBench(found.bench, bad) ?? emptyBench());
  const papers = found.papers == null ? noPapers() : (readPapers(found.papers, bad) ?? noPapers());
  return { recipe, bench, papers };
};
