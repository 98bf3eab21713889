// What is kept beside a recipe: label facts, prices, weighings, lots.
import type { Assessment, LabelFacts, Prices, Trial, Weighings } from './lamella';

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
  /** How a bar was found at the basin. */
  trial: Trial;
}

/** What is likely where the browser's language is spoken: market and currency. */
const HOME: Record<string, readonly [LabelFacts['market'], string]> = {
  'en-GB': ['great-britain', 'GBP'],
  'en-US': ['united-states', 'USD'],
};
const [market, currency] = HOME[navigator.language] ?? ['european-union', 'EUR'];

export const noPapers = (): Papers => ({
  facts: { market, style: 'as-charged', function: 'Soap' },
  assessment: undefined,
  prices: { lamella: 'prices/1', currency, materials: [] },
  weighings: { lamella: 'weighings/1', batch: 'batch 1', bars: [{ bar: 'A', weighings: [] }] },
  stock: {},
  fresh: '',
  lots: [],
  record: { batch: '', started: '', operator: '', bars: '' },
  room: '21 °C',
  trial: { lamella: 'trial/1', batch: 'batch 1' },
});
