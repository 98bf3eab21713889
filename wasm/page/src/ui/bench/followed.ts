// The batch as its log tells it, and what goes into the log and out of it again.
import { follow, LamellaError, type BatchEvent, type Followed, type Problem, type Recipe, type Task } from '../../lamella';
import type { BenchState } from '../../bench-state';
import { without } from '../../change';
import { newId } from '../../store';
import { paperUnits, typedTime } from '../../units';

type Problems = readonly Problem[];

/** The batch as its log tells it, or why the log cannot be. */
export function followed(recipe: Recipe, log: readonly BatchEvent[]): Followed | Problems {
  try {
    const now = follow({ lamella: 'batch/1', recipe, events: [...log] }, paperUnits());
    // What was added beside the plan is in already: it is no work that is still to be done.
    return { ...now, tasks: now.tasks.filter((task) => !task.key.startsWith('weigh /events/')) };
  } catch (error) {
    if (error instanceof LamellaError) return error.problems;
    throw error;
  }
}

const eventsOf = (log: BenchState['log']): BatchEvent[] => log.map((entry) => entry.event);

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

/** What is reported of a task that is left out; of a pour it is the layer. */
export function skipped(task: Task, layer: string | undefined): BatchEvent[] {
  const due = task.due;
  if (!due) return [];
  if ('reads' in due) return layer === undefined ? [] : [{ skipped: layer }];
  const { item, vessel } = due.weighed;
  return [{ skipped: item, ...(vessel === null ? {} : { in: vessel }) }];
}

const REPORT = 'report ';

/** The key of something that was reported beside the tasks. */
export const reportKey = (): string => `${REPORT}${newId()}`;

/** How many of the tasks are done; what was reported beside them is none. */
export const countDone = (bench: BenchState, tasks: readonly Task[]): number =>
  tasks.filter((task) => bench.done.includes(task.key)).length;

/** The bench with more in its log, or why that cannot have happened. */
export function withEvents(recipe: Recipe, bench: BenchState, key: string, events: readonly BatchEvent[]): BenchState | Problems {
  const at = typedTime(new Date());
  const log = [...bench.log, ...events.map((event) => ({ key, event: { ...event, at } }))];
  const next = followed(recipe, eventsOf(log));
  if (!('plan' in next)) return next;
  return { ...bench, log, done: [...bench.done.filter((one) => one !== key), key] };
}

/** The bench with another figure in an entry of its log. */
export function withFigure(recipe: Recipe, bench: BenchState, index: number, event: BatchEvent): BenchState | Problems {
  const log = bench.log.map((entry, place) => (place === index ? { ...entry, event } : entry));
  const next = followed(recipe, eventsOf(log));
  return 'plan' in next ? { ...bench, log } : next;
}

/** The bench without an entry of its log. The task is open again, unless what came after it has settled it as planned. */
export function withoutEntry(recipe: Recipe, bench: BenchState, index: number): BenchState | Problems {
  const entry = bench.log[index];
  if (!entry) return bench;
  const log = without(bench.log, index);
  const next = followed(recipe, eventsOf(log));
  if (!('plan' in next)) return next;
  const { key, event } = entry;
  const whole = !log.some((one) => one.key === key);
  const open = whole && (key.startsWith(REPORT) || 'plan' in followed(recipe, [...eventsOf(log), event]));
  return { ...bench, log, done: open ? bench.done.filter((one) => one !== key) : bench.done };
}
