// Lists of the record: what the maker wrote, then what the log of the bench says.
import type { ComponentChildren } from 'preact';
import { useContext } from 'preact/hooks';
import { without } from '../../../change';
import { change } from '../paper';
import { Filling, problemOf, RecordField, type FieldKind } from './fields';

export type ListName = 'equipment' | 'scale_checks' | 'weighings' | 'temperatures' | 'layers' | 'events' | 'deviations' | 'checks';

export interface Lines {
  list: ListName;
  title: string;
  another: string;
  fields: readonly (readonly [string, string, FieldKind?])[];
  /** A line that was just begun. */
  fresh: Record<string, string>;
}

interface LinesProps {
  of: Lines;
  /** What the bench adds, a line each. */
  bench?: readonly ComponentChildren[];
  children?: ComponentChildren;
}

/** A part that is folded away until it is wanted, or something in it is wrong. */
export function Folded({ title, count, wrong, children }: { title: string; count: number; wrong: boolean; children: ComponentChildren }) {
  return (
    <details class="more folded" open={wrong || undefined}>
      <summary>
        {title}
        {count > 0 && ` (${count})`}
      </summary>
      {children}
    </details>
  );
}

export function ListOf({ of, bench = [], children }: LinesProps) {
  const { draft, problems } = useContext(Filling);
  const lines = (draft[of.list] ?? []) as Record<string, unknown>[];
  return (
    <Folded title={of.title} count={lines.length + bench.length} wrong={problemOf(problems, [of.list]) !== undefined}>
      {lines.map((line, index) => (
        <div key={index} class="line">
          <div class="grid">
            {of.fields.map(([field, label, kind]) => (
              <RecordField key={field} path={[of.list, index, field]} label={label} {...(kind ? { kind } : {})} />
            ))}
          </div>
          <button
            type="button"
            class="drop"
            aria-label={`Take this line out: ${of.title}, ${String(Object.values(line).find((value) => value) ?? index + 1)}`}
            onClick={() => change(['record', of.list], without(lines, index))}
          >
            ×
          </button>
        </div>
      ))}
      {bench.length > 0 && (
        <>
          <p class="faint">From the bench:</p>
          <ul class="from-bench">
            {bench.map((one, index) => (
              <li key={index}>{one}</li>
            ))}
          </ul>
        </>
      )}
      {children}
      <div class="actions">
        <button type="button" onClick={() => change(['record', of.list], [...lines, { ...of.fresh }])}>
          {of.another}
        </button>
      </div>
    </Folded>
  );
}
