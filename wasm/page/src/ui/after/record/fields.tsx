// Fields of the record: each knows its place in it, and what the library finds wrong there.
import { createContext } from 'preact';
import { useContext, useId } from 'preact/hooks';
import type { Problem } from '../../../lamella';
import { at, pointer, type Path } from '../../../change';
import { type RecordDraft } from '../../../record';
import { Choice, Quantity, Text } from '../../Field';
import { change } from '../paper';

export type FieldKind = 'text' | 'long' | 'date' | 'moment' | 'mass' | 'temperature' | 'count' | Options;
type Options = readonly (readonly [string, string])[];

/** The record that is filled in, and what is wrong with it. */
export const Filling = createContext<{ draft: RecordDraft; problems: readonly Problem[] }>({ draft: {}, problems: [] });

/** What is wrong at a place: with what stands there, or that nothing does. */
export function problemOf(problems: readonly Problem[], path: Path): Problem | undefined {
  const here = pointer(path);
  const above = pointer(path.slice(0, -1));
  const missing = (one: Problem) =>
    one.code === 'field.missing' && one.pointer === above && one.message.includes(`"${path.at(-1)}"`);
  return problems.find((one) => one.pointer === here || one.pointer.startsWith(`${here}/`)) ?? problems.find(missing);
}

interface FieldProps {
  path: Path;
  label: string;
  kind?: FieldKind;
  quiet?: boolean;
  /** What stands there until the maker writes something. */
  usual?: string | undefined;
  onValue?: (value: unknown) => void;
}

export function RecordField({ path, label, kind = 'text', quiet = false, usual = '', onValue }: FieldProps) {
  const { draft, problems } = useContext(Filling);
  const problem = problemOf(problems, path);
  const found = at(draft, path);
  const value = found === undefined ? usual : String(found);
  const put = onValue ?? ((next: unknown) => change(['record', ...path], next));
  if (typeof kind === 'object') {
    return (
      <div>
        <Choice label={label} quiet={quiet} value={value} options={kind} onValue={put} />
        {problem && <Told problem={problem} />}
      </div>
    );
  }
  if (kind === 'mass' || kind === 'temperature') {
    return <Quantity label={label} quiet={quiet} kind={kind} optional value={value} problem={problem} onValue={(next) => put(next ?? '')} />;
  }
  if (kind === 'text' || kind === 'long') {
    return <Text label={label} quiet={quiet} long={kind === 'long'} value={value} problem={problem} onValue={put} />;
  }
  return <Plain label={label} kind={kind} value={value} problem={problem} onValue={put} />;
}

const Told = ({ problem, id }: { problem: Problem; id?: string }) => (
  <span class="told" role="status" id={id}>
    {problem.message}
    {problem.advice ? `; ${problem.advice}` : ''}
  </span>
);

interface PlainProps {
  label: string;
  kind: 'date' | 'moment' | 'count';
  value: string;
  problem: Problem | undefined;
  onValue: (value: unknown) => void;
}

/** A day, a day with its time, or a whole number. */
function Plain({ label, kind, value, problem, onValue }: PlainProps) {
  const id = useId();
  // A moment of which only the day is known stays a day.
  const timed = kind === 'moment' && value.length !== 10;
  const shared = {
    id,
    value: timed ? value.replace(' ', 'T') : value,
    autocomplete: 'off' as const,
    'aria-invalid': problem ? ('true' as const) : undefined,
    'aria-describedby': problem ? `${id}m` : undefined,
    onInput: (event: { currentTarget: { value: string } }) => {
      const text = event.currentTarget.value;
      if (kind === 'count') onValue(/^\d{1,9}$/.test(text) ? Number(text) : text);
      else onValue(text.replace('T', ' '));
    },
  };
  return (
    <div class="field">
      <label for={id}>{label}</label>
      {kind === 'count' ? (
        <input type="text" inputMode="numeric" {...shared} />
      ) : (
        <input type={timed ? 'datetime-local' : 'date'} {...shared} />
      )}
      {problem && <Told problem={problem} id={`${id}m`} />}
    </div>
  );
}
