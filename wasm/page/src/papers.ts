// What is kept beside a recipe: label facts, prices, weighings, the record of the batch.
import type { Assessment, Heat, LabelFacts, Prices, Trial, Weighings } from './lamella';
import { recordOf, type OldLot, type OldRecord, type RecordDraft } from './record';

export interface Papers {
  facts: LabelFacts;
  assessment: Assessment | undefined;
  prices: Prices;
  weighings: Weighings;
  /** How much of a fat there is, by its id. */
  stock: Record<string, string>;
  fresh: string;
  record: RecordDraft;
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
  record: {},
  trial: { lamella: 'trial/1', batch: '1' },
  heat: usualHeat(),
  certificates: {},
});

type Kept = Partial<Omit<Papers, 'record'>> & { lots?: OldLot[]; record?: RecordDraft | OldRecord; room?: string };

/** Papers as they were kept, those of an older page too: it knew a lot or two, four words of the record, and the room. */
export function papersOf(kept: Kept | undefined): Papers {
  const { lots, record, room, ...rest } = kept ?? {};
  const heat = rest.heat?.lamella === 'heat/1' ? rest.heat : usualHeat(room);
  return { ...noPapers(), ...rest, heat, record: recordOf(record, lots) };
}
