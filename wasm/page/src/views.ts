// What is looked at, as the browser's Back and Forward know it: each part of the job, panel, paper and recipe is a stop.

export type Place =
  | { at: 'bar' }
  | { at: 'layer'; index: number }
  | { at: 'fats' | 'lye' | 'mould' | 'workshop' | 'batch'; /** What of it is asked for. */ part?: 'setting' };

export type Mode = 'plan' | 'bench' | 'after' | 'recipes';

/** What is looked at afterwards. */
export type Paper = 'sheet' | 'label' | 'composition' | 'cost' | 'cure' | 'trial' | 'record' | 'heat' | 'causes';

export interface View {
  /** The recipe in hand. */
  current: string;
  mode: Mode;
  place: Place;
  paper: Paper;
  mould: number;
}

const MODES: readonly Mode[] = ['plan', 'bench', 'after', 'recipes'];
const PAPERS: readonly Paper[] = ['sheet', 'label', 'composition', 'cost', 'cure', 'trial', 'record', 'heat', 'causes'];
const PLACES = ['fats', 'lye', 'mould', 'workshop', 'batch'] as const;

export const viewOf = ({ current, mode, place, paper, mould }: View): View => ({ current, mode, place, paper, mould });

function placeOf(found: unknown): Place {
  const { at, index, part } = (found ?? {}) as { at?: unknown; index?: unknown; part?: unknown };
  if (at === 'layer' && typeof index === 'number' && Number.isInteger(index) && index >= 0) return { at, index };
  const place = PLACES.find((one) => one === at);
  return place ? { at: place, ...(part === 'setting' ? { part } : {}) } : { at: 'bar' };
}

/** A view as it was found somewhere. */
function read(found: unknown): View | undefined {
  if (typeof found !== 'object' || found === null) return undefined;
  const { current, mode, place, paper, mould } = found as Record<string, unknown>;
  return {
    current: typeof current === 'string' ? current : '',
    mode: MODES.find((one) => one === mode) ?? 'plan',
    place: placeOf(place),
    paper: PAPERS.find((one) => one === paper) ?? 'sheet',
    mould: typeof mould === 'number' && Number.isInteger(mould) && mould >= 0 ? mould : 0,
  };
}

const inHistory = (entry: unknown): View | undefined => read((entry as { lamella?: unknown } | null)?.lamella);
const onPage = typeof history !== 'undefined';

/** What a tab shows first: what it showed before it was loaded again, or what was last looked at in any. */
export const firstView = (ids: readonly string[], last: unknown): View => begin(ids, onPage ? inHistory(history.state) : undefined, last);

/** What a tab shows when all begins anew. */
export const freshView = (id: string): View => begin([id], undefined, undefined);

function begin(ids: readonly string[], again: View | undefined, last: unknown): View {
  const found = again ?? { ...(read(last) ?? read({})!), place: { at: 'bar' } as Place, mould: 0 };
  const view = { ...found, current: ids.includes(found.current) ? found.current : ids[0]! };
  if (onPage) stand(view);
  return view;
}

/** Where Back comes to a stop. */
const stop = ({ current, mode, place, paper }: View): string =>
  JSON.stringify([current, mode, mode === 'plan' ? place : '', mode === 'after' ? paper : '']);

function stand(view: View, more = false): void {
  try {
    const entry = { lamella: viewOf(view) };
    if (more) history.pushState(entry, '');
    else history.replaceState(entry, '');
  } catch {
    // A browser takes only so many of them in a moment.
  }
}

/** Notes that something else is looked at. */
export function seenAs(before: View, now: View): void {
  if (stop(before) !== stop(now)) stand(now, true);
}

/** What is done when the browser goes back or forward. */
export function onBack(show: (view: View) => void): void {
  addEventListener('popstate', ({ state }) => {
    const view = inHistory(state);
    if (view) show(view);
  });
}
