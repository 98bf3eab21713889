// The record as a document: what the maker wrote, with what the log of the bench says.
import { LamellaError, recordPage, takeLog } from '../../../lamella';
import type { Batch, BatchRecord as Document, Finding, Page, Problem, Recipe, Trial } from '../../../lamella';
import type { BenchState } from '../../../bench-state';
import { drafted, type RecordDraft } from '../../../record';
import { get, papers, setPapers, type Look } from '../../../store';
import { typedTime } from '../../../units';
import { entered } from '../Trial';

/** What is made of the draft and the log of the bench. */
export interface Whole {
  /** What the maker wrote, as a document. */
  own: Document;
  /** That with what the bench says. */
  document: Document;
  open: readonly Finding[];
  page: Page | readonly Problem[];
  problems: readonly Problem[];
}

/** The trial of a bar of this batch, where something of it was entered. */
const trialsOf = (batch: string): Trial[] => {
  const trial = entered(papers().trial);
  return trial ? [{ ...trial, batch }] : [];
};

export function whole(recipe: Recipe, draft: RecordDraft, batch: Batch | undefined): Whole {
  const { document: own, placed } = drafted(draft, recipe.name);
  try {
    const { record: document, open } = batch ? takeLog(own, batch) : { record: own, open: [] };
    return { own, document, open, page: recordPage(recipe, document, batch, trialsOf(document.batch), get().usual), problems: [] };
  } catch (error) {
    if (!(error instanceof LamellaError)) throw error;
    return { own, document: own, open: [], page: error.problems, problems: error.problems.map(placed) };
  }
}

/** The recipe that was made, and its log; that of the page while nothing was begun at the bench. */
export function made(look: Look, bench: BenchState): { recipe: Recipe; batch: Batch | undefined } {
  if (bench.begun === 0) return { recipe: look.recipe, batch: undefined };
  const recipe = JSON.parse(bench.recipe) as Recipe;
  return { recipe, batch: { lamella: 'batch/1', recipe, events: bench.log.map((entry) => entry.event) } };
}

/** The draft with when the work was begun, as the bench knows it, where the maker says nothing else. */
export const begunAt = (draft: RecordDraft, bench: BenchState): RecordDraft =>
  draft.started === undefined && bench.begun > 0 ? { ...draft, started: typedTime(new Date(bench.begun)) } : draft;

/** Keeps in the record what the log of the bench says of the batch, before the bench is cleared. */
export function keepLog(look: Look, bench: BenchState): void {
  const { recipe, batch } = made(look, bench);
  const { document, problems } = whole(recipe, begunAt(papers().record, bench), batch);
  if (batch && problems.length === 0) setPapers((old) => ({ ...old, record: { ...document, batch: old.record.batch } }));
}
