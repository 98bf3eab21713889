// What is kept beside a recipe: label facts, prices, weighings, the record of the batch.
import type { Assessment, LabelFacts, Prices, Weighings } from './lamella';
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
  room: string;
}

export const noPapers = (): Papers => ({
  facts: { market: 'european-union', style: 'as-charged', function: 'Soap' },
  assessment: undefined,
  prices: { lamella: 'prices/1', currency: 'EUR', materials: [] },
  weighings: { lamella: 'weighings/1', batch: 'batch 1', bars: [{ bar: 'A', weighings: [] }] },
  stock: {},
  fresh: '',
  record: {},
  room: '21 °C',
});

/** Papers as they were kept, those of an older page too: it knew a lot or two and four words of the record. */
export function papersOf(found: (Partial<Omit<Papers, 'record'>> & { lots?: OldLot[]; record?: RecordDraft | OldRecord }) | undefined): Papers {
  const { lots, record, ...rest } = found ?? {};
  return { ...noPapers(), ...rest, record: recordOf(record, lots) };
}
