// What is kept beside a recipe: label facts, prices, weighings, lots.
import type { Assessment, Heat, LabelFacts, Prices, Trial, Weighings } from './lamella';

export interface Lot {
  material: string;
  lot: string;
  supplier: string;
}

export interface Papers {
  facts: LabelFacts;
  assessment: Assessment | undefined;
  prices: Prices;
  weighings: Weighings;
  /** How much of a fat there is, by its id. */
  stock: Record<string, string>;
  fresh: string;
  lots: Lot[];
  record: { batch: string; started: string; operator: string; bars: string };
  /** How a bar was found at the basin. */
  trial: Trial;
  /** What the block sets in. */
  heat: Heat;
  /** Certificates that cannot be reckoned with yet, by the line that they are of. */
  certificates: Record<string, Record<string, unknown>>;
}

/** What a batch sets in, unless the maker says more: a lined wooden box with its lid on, in a room that warm. */
export const usualHeat = (room = '21 °C'): Heat => ({
  lamella: 'heat/1',
  walls: [{ sheet: 'silicone', thickness: '1 mm' }, { sheet: 'wood', thickness: '12 mm' }],
  base: [{ sheet: 'silicone', thickness: '1 mm' }, { sheet: 'wood', thickness: '12 mm' }],
  surroundings: [{ from: '0 h', air: room, cover: [{ sheet: 'wood', thickness: '10 mm' }] }],
});

/** What was kept, with what is new since; the temperature of the room once stood alone. */
export function readPapers(kept: (Partial<Papers> & { room?: string }) | undefined): Papers {
  const { room, ...papers } = kept ?? {};
  const heat = papers.heat?.lamella === 'heat/1' ? papers.heat : usualHeat(room);
  return { ...noPapers(), ...papers, heat };
}

/** Where a maker most likely sells: where the browser's language is spoken. */
const HOME = {
  GB: { market: 'great-britain', currency: 'GBP' },
  US: { market: 'united-states', currency: 'USD' },
  other: { market: 'european-union', currency: 'EUR' },
} as const;
const home = () => HOME[navigator.language.slice(-2) as keyof typeof HOME] ?? HOME.other;

export const noPapers = (): Papers => ({
  facts: { market: home().market, style: 'as-charged', function: 'Soap' },
  assessment: undefined,
  prices: { lamella: 'prices/1', currency: home().currency, materials: [] },
  weighings: { lamella: 'weighings/1', batch: 'batch 1', bars: [{ bar: 'A', weighings: [] }] },
  stock: {},
  fresh: '',
  lots: [],
  record: { batch: '', started: '', operator: '', bars: '' },
  trial: { lamella: 'trial/1', batch: 'batch 1' },
  heat: usualHeat(),
  certificates: {},
});
