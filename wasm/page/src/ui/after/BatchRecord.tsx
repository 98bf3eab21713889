// The record of the batch: lots, weighings, who made it.
import { useMemo } from 'preact/hooks';
import { recordPage } from '../../lamella';
import { fileName, saveText } from '../../files';
import { kept, papers, type Look } from '../../store';
import { materialsOf, weighedIn } from '../../weighed-in';
import { Text } from '../Field';
import { Actions, change, Made, made } from './paper';

export function BatchRecord({ look }: { look: Look }) {
  const { recipe, plan } = look;
  const { lots, record } = papers();
  const { log } = kept().bench;
  const list = materialsOf(look.plan);
  const lotOf = (id: string) => lots.find((one) => one.material === id);
  const setLot = (material: string, field: 'lot' | 'supplier', value: string) => {
    const index = lots.findIndex((one) => one.material === material);
    if (index < 0) change(['lots'], [...lots, { material, lot: '', supplier: '', [field]: value }]);
    else change(['lots', index, field], value);
  };
  const document = useMemo(() => {
    const known = lots.filter((one) => one.lot.trim() !== '' && list.some((item) => item.id === one.material));
    return {
      lamella: 'record/1' as const,
      batch: record.batch || 'not numbered yet',
      product: recipe.name,
      ...(record.started ? { started: record.started.replace('T', ' ') } : {}),
      ...(record.operator ? { operators: [record.operator] } : {}),
      lots: known.map((one) => ({ lot: one.lot, material: one.material, ...(one.supplier ? { supplier: one.supplier } : {}) })),
      weighings: weighedIn(plan).flatMap((item) => {
        const lot = known.find((one) => one.material === item.id);
        const really = log.filter((entry) => entry.event.weighed === item.pointer).at(-1)?.event.mass;
        return lot ? [{ lot: lot.lot, mass: really ?? item.weighed, scale: plan.scales[item.scale]?.name ?? '' }] : [];
      }),
      ...(/^\d+$/.test(record.bars) ? { output: { bars: Number(record.bars), rejected: 0 } } : {}),
    };
  }, [recipe, plan, lots, record, log]);
  const page = useMemo(() => made(() => recordPage(recipe, document)), [recipe, document]);
  return (
    <>
      <div class="panel no-print">
        <div class="grid">
          <Text label="Batch" value={record.batch} onValue={(value) => change(['record', 'batch'], value)} />
          <label class="field">
            <span class="label-text">Begun</span>
            <input type="datetime-local" value={record.started} onInput={(event) => change(['record', 'started'], event.currentTarget.value)} />
          </label>
          <Text label="Made by" value={record.operator} onValue={(value) => change(['record', 'operator'], value)} />
          <Text label="Bars" value={record.bars} onValue={(value) => change(['record', 'bars'], value)} />
        </div>
        <h3>Lots</h3>
        <p class="priced faint" aria-hidden="true">
          <span />
          <span>lot</span>
          <span>from</span>
        </p>
        <ul class="rows">
          {list.map((item) => (
            <li key={item.id} class="priced">
              <span>{item.name}</span>
              <Text quiet label={`Lot of ${item.name}`} value={lotOf(item.id)?.lot ?? ''} onValue={(value) => setLot(item.id, 'lot', value)} />
              <Text quiet label={`Supplier of ${item.name}`} value={lotOf(item.id)?.supplier ?? ''} onValue={(value) => setLot(item.id, 'supplier', value)} />
            </li>
          ))}
        </ul>
        <p class="faint">Weighings are those of the bench where it was used, else those of the plan.</p>
      </div>
      <Actions>
        <button type="button" onClick={() => saveText(`${JSON.stringify(document, null, 2)}\n`, fileName(`${recipe.name} record`, '.json'))}>
          Save the record
        </button>
      </Actions>
      <Made page={page} />
    </>
  );
}
