// What all papers have: how one is made, how it is printed, how what is entered for it is kept.
import type { ComponentChildren } from 'preact';
import { LamellaError, type Page, type Problem } from '../../lamella';
import { set, type Path } from '../../change';
import { setPapers } from '../../store';
import { Blocks, Problems } from '../Parts';

export const change = (path: Path, value: unknown) => setPapers((old) => set(old, path, value));

/** A page of the library, or what keeps it from being made. */
export function made(make: () => Page): Page | readonly Problem[] {
  try {
    return make();
  } catch (error) {
    if (error instanceof LamellaError) return error.problems;
    throw error;
  }
}

export function Made({ page }: { page: Page | readonly Problem[] }) {
  if ('blocks' in page) return <Blocks blocks={page.blocks} />;
  return <Problems list={page} />;
}

export function Actions({ children }: { children?: ComponentChildren }) {
  return (
    <div class="actions no-print">
      <button type="button" class="go" onClick={() => print()}>
        Print
      </button>
      {children}
    </div>
  );
}
