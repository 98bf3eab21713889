// What is kept beside a recipe: label facts, prices, weighings, lots.
import type { Assessment, LabelFacts, Prices, Weighings } from './lamella';

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
  room: string;
  /** Certificates that cannot be reckoned with yet, by the line that they are of. */
  certificates: Record<string, Record<string, unknown>>;
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
  room: '21 °C',
  certificates: {},
});
