// The record of a batch as the maker fills it in, and the document that the library reads.
import type { BatchRecord, Plan, Problem } from './lamella';
import { weighedIn } from './weighed-in';

type Draft<T> = T extends readonly (infer One)[]
  ? Draft<One>[]
  : T extends object
    ? { [Field in keyof T]?: Draft<T[Field]> | undefined }
    : T extends number
      ? number | string
      : T extends string
        ? string
        : T;

/** A record/1 document on the way: anything may be missing or empty yet. */
export type RecordDraft = Draft<BatchRecord>;

/** What the record was before it had all its fields. */
export interface OldRecord {
  batch: string;
  started: string;
  operator: string;
  bars: string;
}
export interface OldLot {
  material: string;
  lot: string;
  supplier: string;
}

/** A record as it was kept, in this form or the old one. */
export function recordOf(kept: RecordDraft | OldRecord | undefined, lots: readonly OldLot[] | undefined): RecordDraft {
  if (!kept || !('operator' in kept) || !('bars' in kept)) return (kept ?? {}) as RecordDraft;
  const { batch, started, operator, bars } = kept as OldRecord;
  const draft: RecordDraft = {};
  if (batch) draft.batch = batch;
  if (started) draft.started = started;
  if (operator) draft.operators = [operator];
  if (/^\d+$/.test(bars)) draft.output = { bars: Number(bars) };
  if (lots && lots.length > 0) draft.lots = lots.map((one) => ({ ...one }));
  return draft;
}

/** Whether nothing is written there. */
function isEmpty(value: unknown): boolean {
  if (value === undefined || value === null) return true;
  if (typeof value === 'string') return value.trim() === '';
  if (Array.isArray(value)) return value.every(isEmpty);
  return typeof value === 'object' && Object.values(value).every(isEmpty);
}

/** What is written, without the fields that are empty. */
function written(value: unknown): unknown {
  if (typeof value === 'string') return value.trim();
  if (value === null || typeof value !== 'object' || Array.isArray(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, inner]) => !isEmpty(inner))
      .map(([field, inner]) => [field, written(inner)]),
  );
}

/** A lot of which only the material is known is none yet; a test has its outcome from the beginning, a weighing its lot. */
const GIVEN: Record<string, string> = { lots: 'material', checks: 'outcome', weighings: 'lot', scale_checks: 'scale' };

export interface Drafted {
  document: BatchRecord;
  /** Where a problem of the document stands in the draft. */
  placed: (problem: Problem) => Problem;
}

/** The document of a draft. Lines without anything in them are left out; a problem finds its line all the same. */
export function drafted(draft: RecordDraft, product: string): Drafted {
  const lines: Record<string, number[]> = {};
  const document: Record<string, unknown> = {};
  for (const [field, value] of Object.entries(draft)) {
    if (!Array.isArray(value)) {
      if (!isEmpty(value)) document[field] = written(value);
      continue;
    }
    const given = GIVEN[field];
    const bare = (line: unknown) => (given === undefined || typeof line !== 'object' ? line : { ...line, [given]: undefined });
    const kept = value.map((_, index) => index).filter((index) => !isEmpty(bare(value[index])));
    lines[field] = kept;
    if (kept.length > 0) document[field] = kept.map((index) => written(value[index]));
  }
  return {
    document: {
      ...(document as Partial<BatchRecord>),
      lamella: 'record/1',
      batch: (document.batch as string | undefined) ?? 'not numbered yet',
      product: (document.product as string | undefined) ?? product,
      lots: (document.lots as BatchRecord['lots'] | undefined) ?? [],
      weighings: (document.weighings as BatchRecord['weighings'] | undefined) ?? [],
    },
    placed: (problem) => {
      const found = /^\/([^/]+)\/(\d+)(.*)$/.exec(problem.pointer);
      const line = found && lines[found[1]!]?.[Number(found[2])];
      return line == null ? problem : { ...problem, pointer: `/${found![1]}/${line}${found![3]}` };
    },
  };
}

/** The weighings of a batch that went by its plan, of every material of which there is one lot. */
export function asPlanned(plan: Plan, lots: BatchRecord['lots']): BatchRecord['weighings'] {
  const inPot = new Set([...plan.pot.fats, ...plan.pot.doses].map((item) => item.pointer));
  const inJug = (pointer: string) =>
    plan.jugs.find((jug) => [...jug.held, ...jug.doses, ...jug.late_doses].some((item) => item.pointer === pointer))?.name;
  return [...weighedIn(plan), plan.lye.water].flatMap((item) => {
    const [lot, ...others] = lots.filter((one) => one.material === item.id);
    if (!lot || others.length > 0) return [];
    const scale = plan.scales[item.scale]?.name;
    const into = inPot.has(item.pointer) ? 'pot' : (inJug(item.pointer) ?? 'lye');
    return [{ lot: lot.lot, mass: item.weighed, ...(scale ? { scale } : {}), into }];
  });
}
