// A lining, a lid, a wrapping: sheets of something, one upon another.
import type { HeatSheet, Problem } from '../../lamella';
import { without, type Path } from '../../change';
import { length } from '../../units';
import { Choice, Quantity } from '../Field';

type Of = HeatSheet['sheet'];

const NAMES: readonly (readonly [Of, string])[] = [
  ['wood', 'wood'],
  ['silicone', 'silicone'],
  ['plastic', 'plastic'],
  ['cardboard', 'cardboard'],
  ['foam', 'foam, cool box'],
  ['blanket', 'towel, blanket'],
  ['steel', 'steel'],
];
const USUAL: Record<Of, string> = {
  wood: '12 mm', silicone: '2 mm', plastic: '2 mm', cardboard: '4 mm', foam: '20 mm', blanket: '10 mm', steel: '1 mm',
};

/** Sheets in words, from the soap outwards. */
export const sheetsSaid = (list: readonly HeatSheet[] | undefined): string =>
  (list ?? []).map((one) => `${length(one.thickness)} of ${NAMES.find(([of]) => of === one.sheet)?.[1] ?? one.sheet}`).join(', ');

interface SheetsProps {
  title: string;
  /** What is so without any. */
  none: string;
  list: readonly HeatSheet[];
  path: Path;
  told: (...path: Path) => Problem | undefined;
  put: (path: Path, value: unknown) => void;
  /** What the first is of. */
  begin?: Of;
  hint?: string;
}

export function Sheets({ title, none, list, path, told, put, begin = 'wood', hint }: SheetsProps) {
  return (
    <section class="lining" role="group" aria-label={title}>
      <h3>{title}</h3>
      {list.length === 0 && <p class="faint">{none}</p>}
      <ul>
        {list.map((one, index) => (
          <li key={index}>
            <Choice
              quiet
              label={`${title}: sheet ${index + 1} is of`}
              value={one.sheet}
              options={NAMES}
              onValue={(sheet) => put([...path, index], { sheet, thickness: one.thickness === USUAL[one.sheet] ? USUAL[sheet] : one.thickness })}
            />
            <Quantity
              quiet
              label={`${title}: thickness of sheet ${index + 1}`}
              kind="length"
              value={one.thickness}
              problem={told(...path, index, 'thickness')}
              onValue={(value) => put([...path, index, 'thickness'], value)}
            />
            <button type="button" class="drop" aria-label={`${title}: leave out sheet ${index + 1}`} onClick={() => put(path, without(list, index))}>
              ×
            </button>
          </li>
        ))}
      </ul>
      <button type="button" class="add" onClick={() => put(path, [...list, { sheet: begin, thickness: USUAL[begin] }])}>
        {list.length === 0 ? 'Add' : 'Add another'}
        <span class="unseen"> to: {title}</span>
      </button>
      {hint && <p class="hint">{hint}</p>}
    </section>
  );
}
