// The lots of the materials: the maker's own name of each, and what a recall would ask for.
import { useContext } from 'preact/hooks';
import { set, without } from '../../../change';
import type { RecordDraft } from '../../../record';
import { capital } from '../../Parts';
import { change } from '../paper';
import { Filling, problemOf, RecordField } from './fields';

type LotDraft = NonNullable<RecordDraft['lots']>[number];

const MORE = [
  ['supplier_lot', 'Number on the pack', 'text'],
  ['received', 'Came on', 'date'],
  ['opened', 'Opened on', 'date'],
  ['expires', 'Keeps until', 'date'],
  ['batch', 'Soap of batch, when it is worked in again', 'text'],
] as const;

export function Lots({ materials }: { materials: readonly { id: string; name: string }[] }) {
  const { draft } = useContext(Filling);
  const lots = draft.lots ?? [];
  const strange = lots.filter((lot) => lot.material && !materials.some((one) => one.id === lot.material));
  const others = [...new Set(strange.map((lot) => lot.material ?? ''))].map((id) => ({ id, name: id }));
  return (
    <>
      <h3>Lots</h3>
      <p class="priced heads faint" aria-hidden="true">
        <span />
        <span>lot</span>
        <span>from</span>
      </p>
      <ul class="rows">
        {[...materials, ...others].map(({ id, name }) => (
          <Material key={id} id={id} name={name} lots={lots} />
        ))}
      </ul>
    </>
  );
}

function Material({ id, name, lots }: { id: string; name: string; lots: readonly LotDraft[] }) {
  const { problems } = useContext(Filling);
  const own = lots.flatMap((lot, index) => (lot.material === id ? [index] : []));
  // A material without a lot has an empty line, which becomes one when something is written.
  const places = own.length > 0 ? own : [lots.length];
  return (
    <li>
      {places.map((index, nth) => {
        const label = nth === 0 ? name : `${name}, ${nth + 1}`;
        const put = (field: string) => (value: unknown) => {
          if (index < lots.length) change(['record', 'lots', index, field], value);
          else change(['record', 'lots'], [...lots, { material: id, [field]: value }]);
        };
        const wrong = MORE.some(([field]) => problemOf(problems, ['lots', index, field]));
        return (
          <div key={nth}>
            <div class="priced">
              <span>{nth === 0 ? capital(name) : ''}</span>
              <RecordField quiet path={['lots', index, 'lot']} label={`Lot of ${label}`} onValue={put('lot')} />
              <RecordField quiet path={['lots', index, 'supplier']} label={`Supplier of ${label}`} onValue={put('supplier')} />
            </div>
            {index < lots.length && (
              <details class="more" open={wrong || undefined}>
                <summary>More of {lots[index]?.lot || 'this lot'}</summary>
                <div class="grid">
                  {MORE.map(([field, what, kind]) => (
                    <RecordField key={field} path={['lots', index, field]} label={what} kind={kind} onValue={put(field)} />
                  ))}
                </div>
                <div class="actions">
                  <button type="button" onClick={() => change(['record', 'lots'], [...lots, { material: id, lot: '' }])}>
                    Another lot of it
                  </button>
                  <button type="button" onClick={() => change(['record', 'lots'], without(lots, index))}>
                    Take this lot out
                  </button>
                </div>
              </details>
            )}
          </div>
        );
      })}
    </li>
  );
}

/** The draft with what stays from one batch to the next: who, with what, from which lots. */
export function nextRecord(old: RecordDraft): RecordDraft {
  const kept: RecordDraft = {};
  if (old.operators) kept.operators = old.operators;
  if (old.lots) kept.lots = old.lots;
  if (old.equipment) kept.equipment = old.equipment.map((one) => set(set(one, ['cleaned'], undefined), ['by'], undefined));
  if (old.formula) kept.formula = old.formula;
  return kept;
}
