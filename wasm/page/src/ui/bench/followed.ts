// The batch as its log tells it, and what goes into the log.
import { follow, LamellaError, type BatchEvent, type Followed, type Problem, type Recipe, type Task } from '../../lamella';
import type { BenchState } from '../../bench-state';
import { paperUnits } from '../../units';

/** The batch as its log tells it, or why the log cannot be. */
export function followed(recipe: Recipe, log: readonly BatchEvent[]): Followed | readonly Problem[] {
  try {
    return follow({ lamella: 'batch/1', recipe, events: [...log] }, paperUnits());
  } catch (error) {
    if (error instanceof LamellaError) return error.problems;
    throw error;
  }
}

/** The bench without what was done last. */
export function undone(bench: BenchState): BenchState {
  const last = bench.done[bench.done.length - 1];
  if (last === undefined) return { ...bench, at: '' };
  return {
    ...bench,
    done: bench.done.slice(0, -1),
    log: bench.log.filter((entry) => entry.key !== last),
    at: '',
  };
}

/** What is reported of a task when so much went in, or the scale shows so much. */
export function reported(task: Task, mass: string): BatchEvent[] {
  const due = task.due;
  if (!due) return [];
  if ('reads' in due) return [{ reads: due.reads.jug, mass }];
  const { item, vessel } = due.weighed;
  return [{ weighed: item, mass, ...(vessel === null ? {} : { in: vessel }) }];
}
