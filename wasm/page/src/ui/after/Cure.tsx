// The cure: what the bars weigh, week by week.
import { useMemo, useState } from 'preact/hooks';
import { curePage, cureSvg, LamellaError } from '../../lamella';
import { without } from '../../change';
import { kept, papers, type Look } from '../../store';
import { local, typedDate } from '../../units';
import { Quantity, Text } from '../Field';
import { Svg } from '../Svg';
import { source } from './batch';
import { Actions, change, Made, made } from './paper';

export function Cure({ look }: { look: Look }) {
  const { recipe } = look;
  const { weighings, fresh } = papers();
  const [date, setDate] = useState(typedDate(new Date()));
  const some = weighings.bars.some((bar) => bar.weighings.length > 0);
  const page = useMemo(
    () => (some || fresh ? made(() => curePage(source(look), weighings, fresh || undefined)) : undefined),
    [recipe, kept().bench, weighings, fresh, some],
  );
  const curves = useMemo(() => {
    if (!some) return [];
    try {
      return weighings.bars.map((bar, index) => [bar.bar, cureSvg(weighings, index) ?? ''] as const).filter(([, svg]) => svg);
    } catch (error) {
      if (error instanceof LamellaError) return [];
      throw error;
    }
  }, [weighings, some]);
  return (
    <>
      <div class="panel no-print">
        <div class="grid">
          <Text label="Batch" value={weighings.batch} onValue={(value) => change(['weighings', 'batch'], value)} />
          <label class="field">
            <span class="label-text">Cut on</span>
            <input type="date" value={weighings.cut ?? ''} onInput={(event) => change(['weighings', 'cut'], event.currentTarget.value || undefined)} />
          </label>
          <Quantity label="A fresh bar weighs" kind="mass" optional value={fresh} hint="for an estimate before any weighing" onValue={(value) => change(['fresh'], value ?? '')} />
        </div>
        {weighings.bars.map((bar, index) => (
          <section key={index}>
            <Text label="Bar" value={bar.bar} onValue={(value) => change(['weighings', 'bars', index, 'bar'], value)} />
            <ul class="weighings">
              {bar.weighings.map((one, number) => (
                <li key={number}>
                  {one.date ?? one.age}: {local(one.mass)}{' '}
                  <button type="button" class="drop" aria-label={`Leave out the weighing of ${one.date ?? one.age}`} onClick={() => change(['weighings', 'bars', index, 'weighings'], without(bar.weighings, number))}>
                    ×
                  </button>
                </li>
              ))}
            </ul>
            <NewWeighing
              date={date}
              setDate={setDate}
              onAdd={(mass) => change(['weighings', 'bars', index, 'weighings'], [...bar.weighings, { date, mass }])}
            />
          </section>
        ))}
        <div class="actions">
          <button type="button" onClick={() => change(['weighings', 'bars'], [...weighings.bars, { bar: String.fromCharCode(65 + weighings.bars.length), weighings: [] }])}>
            Another bar
          </button>
        </div>
      </div>
      {!page && <p class="faint">Enter what a fresh bar weighs, or weigh a bar every week: the curve follows.</p>}
      {curves.map(([name, svg]) => (
        <Svg key={name} text={svg} name={`Drying of bar ${name}`} />
      ))}
      {page && <Actions />}
      {page && <Made page={page} />}
    </>
  );
}

function NewWeighing(props: { date: string; setDate: (date: string) => void; onAdd: (mass: string) => void }) {
  const [mass, setMass] = useState('');
  return (
    <form
      class="grid"
      onSubmit={(event) => {
        event.preventDefault();
        if (mass) props.onAdd(mass);
        setMass('');
      }}
    >
      <label class="field">
        <span class="label-text">Weighed on</span>
        <input type="date" value={props.date} onInput={(event) => props.setDate(event.currentTarget.value)} />
      </label>
      <Quantity label="The bar weighs" kind="mass" optional value={mass} onValue={(value) => setMass(value ?? '')} />
      <button type="submit" disabled={!mass || !props.date}>
        Add
      </button>
    </form>
  );
}
