// What is known of a batch under way.

import type { BatchEvent } from './lamella';

export interface BenchState {
  /** Keys of the tasks that are done. */
  done: string[];
  /** The task that is looked at; empty for the first that is not done. */
  at: string;
  /** What was reported, in order; each with the task that it belongs to. */
  log: { key: string; event: BatchEvent }[];
  /** When the timer of a task ends, in milliseconds since 1970. */
  timers: Record<string, { ends: number; minutes: number }>;
  /** When the work was begun; 0 before. */
  begun: number;
  /** The recipe as it was when the work was begun: what is changed at the desk does not change what stands on the bench. */
  recipe: string;
}

export const emptyBench = (): BenchState => ({ done: [], at: '', log: [], timers: {}, begun: 0, recipe: '' });
