// Afterwards, and on paper: the sheet, the label, what the assessor asks for, cost, cure, record, heat.
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { ComponentChildren } from 'preact';
import {
  causes,
  costPage,
  curePage,
  cureSvg,
  dossierCsv,
  dossierPage,
  LamellaError,
  labelPage,
  recordPage,
  sheet,
  sheetMarkdown,
  sheetText,
  verdict,
} from '../lamella';
import type { Assessment, Observation, Page, Problem, WeighItem } from '../lamella';
import { fileName, saveText } from '../files';
import { set, without, type Path } from '../change';
import { kept, papers, setPapers, settingOf, type Look } from '../store';
import { local, percent, temperature, typedDate, when } from '../units';
import { warm, type Warm } from '../worker';
import { Safety } from './App';
import { Choice, Quantity, Text } from './Field';
import { Blocks, Cautions, sentence } from './Parts';

const PAGES = [
  ['sheet', 'Sheet'],
  ['label', 'Label'],
  ['composition', 'Composition'],
  ['cost', 'Cost'],
  ['cure', 'Cure'],
  ['record', 'Batch record'],
  ['heat', 'Heat'],
  ['causes', 'What went wrong'],
] as const;
type PageName = (typeof PAGES)[number][0];

export function After({ look }: { look: Look }) {
  const [page, setPage] = useState<PageName>('sheet');
  return (
    <section class="after">
      <nav class="papers no-print" aria-label="Papers">
        {PAGES.map(([name, label]) => (
          <button
            key={name}
            type="button"
            class={name === page ? 'here' : ''}
            aria-current={name === page ? 'page' : undefined}
            onClick={() => setPage(name)}
          >
            {label}
          </button>
        ))}
      </nav>
      {page === 'sheet' && <Sheet look={look} />}
      {page === 'label' && <Label look={look} />}
      {page === 'composition' && <Composition look={look} />}
      {page === 'cost' && <Cost look={look} />}
      {page === 'cure' && <CureOf look={look} />}
      {page === 'record' && <RecordOf look={look} />}
      {page === 'heat' && <Heat look={look} />}
      {page === 'causes' && <Causes look={look} />}
    </section>
  );
}

const change = (path: Path, value: unknown) => setPapers((old) => set(old, path, value));

/** A page of the library, or what keeps it from being made. */
function made(make: () => Page): Page | readonly Problem[] {
  try {
    return make();
  } catch (error) {
    if (error instanceof LamellaError) return error.problems;
    throw error;
  }
}

function Made({ page }: { page: Page | readonly Problem[] }) {
  if ('blocks' in page) return <Blocks blocks={page.blocks} />;
  return <Problems list={page} />;
}

function Problems({ list }: { list: readonly Problem[] }) {
  return (
    <ul class="problems">
      {list.map((problem, index) => (
        <li key={index}>
          {sentence(problem.message)} <span class="faint">{sentence(problem.advice)}</span>
        </li>
      ))}
    </ul>
  );
}

function Actions({ children }: { children?: ComponentChildren }) {
  return (
    <div class="actions no-print">
      <button type="button" class="go" onClick={() => print()}>
        Print
      </button>
      {children}
    </div>
  );
}

function Sheet({ look }: { look: Look }) {
  const { recipe } = look;
  const page = useMemo(() => made(() => sheet(recipe)), [recipe]);
  return (
    <>
      <Actions>
        <button type="button" onClick={() => saveText(sheetText(recipe), fileName(recipe.name, '.txt'), 'text/plain')}>
          Save as text
        </button>
        <button type="button" onClick={() => saveText(sheetMarkdown(recipe), fileName(recipe.name, '.md'), 'text/markdown')}>
          Save as Markdown
        </button>
      </Actions>
      <Made page={page} />
    </>
  );
}

/** Reads an assessment; the verdict tells what is wrong with it. */
async function openAssessment(file: File | undefined, tell: (text: string) => void): Promise<void> {
  if (!file || file.size > 1 << 20) return;
  try {
    const found = JSON.parse(await file.text()) as Assessment;
    change(['assessment'], found);
    tell('');
  } catch {
    tell(`${file.name} is no assessment: it is not JSON.`);
  }
}

function Label({ look }: { look: Look }) {
  const { recipe } = look;
  const { facts, assessment } = papers();
  const [told, setTold] = useState('');
  const page = useMemo(() => made(() => labelPage(recipe, facts, assessment)), [recipe, facts, assessment]);
  const standing = useMemo(() => {
    try {
      return verdict(recipe, assessment);
    } catch (error) {
      if (error instanceof LamellaError) return error.problems;
      throw error;
    }
  }, [recipe, assessment]);
  const field = (name: 'responsible' | 'batch' | 'durability' | 'origin' | 'function', label: string) => (
    <Text label={label} value={facts[name] ?? ''} onValue={(value) => change(['facts', name], value)} />
  );
  return (
    <>
      <Actions />
      <Made page={page} />
      <div class="panel no-print">
        <h2>What else stands on it</h2>
        <div class="grid">
          <Choice
            label="Sold in"
            value={facts.market ?? 'european-union'}
            options={[
              ['european-union', 'European Union, Northern Ireland'],
              ['great-britain', 'Great Britain'],
              ['united-states', 'United States'],
            ]}
            onValue={(value) => change(['facts', 'market'], value)}
          />
          <Choice
            label="The list names"
            value={facts.style ?? 'as-charged'}
            options={[
              ['as-charged', 'what was weighed in'],
              ['as-formed', 'what became of it'],
            ]}
            onValue={(value) => change(['facts', 'style'], value)}
          />
          {field('function', 'What it is')}
          <Quantity label="Net quantity of a bar" kind="mass" optional value={facts.nominal ?? ''} onValue={(value) => change(['facts', 'nominal'], value)} />
          {field('batch', 'Batch')}
          {field('durability', 'Best before, or months after opening')}
          {field('responsible', 'Responsible person, with address')}
          {field('origin', 'Made in')}
          <Text
            label="Precautions"
            value={facts.precautions?.[0] ?? ''}
            onValue={(value) => change(['facts', 'precautions'], value ? [value] : undefined)}
          />
        </div>
        <p class={'standing' in standing && standing.standing === 'covered' ? '' : 'told'}>
          {'standing' in standing ? standing.says : 'The assessment cannot be read.'}
        </p>
        {!('standing' in standing) && <Problems list={standing} />}
        {'standing' in standing && standing.reasons.length > 0 && (
          <ul>
            {standing.reasons.map((reason, index) => (
              <li key={index}>
                {reason.what}: {local(reason.figure)}; covered is {local(reason.limit)}. {sentence(reason.change)}
              </li>
            ))}
          </ul>
        )}
        <div class="actions">
          <label class="button">
            Open the assessment
            <input
              type="file"
              class="unseen"
              accept=".json,application/json"
              onChange={(event) => void openAssessment(event.currentTarget.files?.[0], setTold)}
            />
          </label>
          {assessment && (
            <button type="button" onClick={() => change(['assessment'], undefined)}>
              Put it away
            </button>
          )}
        </div>
        {told && <p class="told">{told}</p>}
      </div>
    </>
  );
}

function Composition({ look }: { look: Look }) {
  const { recipe } = look;
  const page = useMemo(() => made(() => dossierPage(recipe)), [recipe]);
  return (
    <>
      <Actions>
        <button type="button" onClick={() => saveText(dossierCsv(recipe), fileName(recipe.name, '.csv'), 'text/csv')}>
          Save as CSV
        </button>
      </Actions>
      <Made page={page} />
    </>
  );
}

/** Everything that is weighed in, each material once. */
function materialsOf(look: Look): WeighItem[] {
  const { plan } = look;
  const all = [
    ...plan.pot.fats,
    ...plan.pot.doses,
    ...plan.lye.alkalis,
    ...plan.lye.liquids,
    ...plan.lye.doses,
    ...plan.jugs.flatMap((jug) => [...jug.held, ...jug.doses, ...jug.late_doses]),
  ];
  return all.filter((item, index) => item.id !== 'water' && all.findIndex((one) => one.id === item.id) === index);
}

function Cost({ look }: { look: Look }) {
  const { recipe } = look;
  const { prices } = papers();
  const page = useMemo(() => made(() => costPage(recipe, prices)), [recipe, prices]);
  const list = materialsOf(look);
  const price = (id: string, field: 'price' | 'pack', value: string | undefined) => {
    const index = prices.materials.findIndex((one) => one.material === id);
    if (index < 0) change(['prices', 'materials'], [...prices.materials, { material: id, price: '0', pack: '1 kg', [field]: value ?? '0' }]);
    else if (value === undefined && field === 'price') change(['prices', 'materials'], without(prices.materials, index));
    else change(['prices', 'materials', index, field], value);
  };
  return (
    <>
      <div class="panel no-print">
        <div class="grid">
          <Text label="Currency" value={prices.currency} onValue={(value) => change(['prices', 'currency'], value.toUpperCase().slice(0, 3))} />
          <Quantity label="Pay of an hour" kind="number" optional value={prices.labour?.rate ?? ''} onValue={(value) => change(['prices', 'labour'], value === undefined ? undefined : { time: '3 h', ...prices.labour, rate: value })} />
          {prices.labour && (
            <Quantity label="Hours for the batch" kind="number" value={prices.labour.time.replace(/ h$/, '')} onValue={(value) => change(['prices', 'labour', 'time'], `${value} h`)} />
          )}
          <Quantity label="Bars" kind="number" optional value={prices.bars ? String(prices.bars) : ''} onValue={(value) => change(['prices', 'bars'], value && /^\d+$/.test(value) ? Number(value) : undefined)} />
          <Quantity label="Margin, of the price" kind="share" optional value={prices.margin?.of_price ?? ''} onValue={(value) => change(['prices', 'margin'], value === undefined ? undefined : { of_price: value })} />
          <Quantity label="Tax" kind="share" optional value={prices.tax ?? ''} onValue={(value) => change(['prices', 'tax'], value)} />
        </div>
        <h3>What a pack costs, and what is in it</h3>
        <p class="priced faint" aria-hidden="true">
          <span />
          <span>costs</span>
          <span>holds</span>
        </p>
        <ul class="rows">
          {list.map((item) => {
            const one = prices.materials.find((known) => known.material === item.id);
            return (
              <li key={item.id} class="priced">
                <span>{item.name}</span>
                <Quantity quiet label={`Price of a pack of ${item.name}`} kind="number" optional value={one?.price ?? ''} onValue={(value) => price(item.id, 'price', value)} />
                <Quantity quiet label={`A pack of ${item.name} holds`} kind="mass" value={one?.pack ?? '1 kg'} onValue={(value) => price(item.id, 'pack', value)} />
              </li>
            );
          })}
        </ul>
      </div>
      <Actions />
      <Made page={page} />
    </>
  );
}

/** A drawing of the library, set into the page as nodes. */
export function Svg({ text, name }: { text: string; name: string }) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const parsed = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
    if (parsed.nodeName === 'svg') place.current?.replaceChildren(document.importNode(parsed, true));
  }, [text]);
  return <div class="drawing" ref={place} role="group" aria-label={name} />;
}

function CureOf({ look }: { look: Look }) {
  const { recipe } = look;
  const { weighings, fresh } = papers();
  const [date, setDate] = useState(typedDate(new Date()));
  const some = weighings.bars.some((bar) => bar.weighings.length > 0);
  const page = useMemo(
    () => (some || fresh ? made(() => curePage(recipe, weighings, fresh || undefined)) : undefined),
    [recipe, weighings, fresh, some],
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

function RecordOf({ look }: { look: Look }) {
  const { recipe, plan } = look;
  const { lots, record } = papers();
  const { log } = kept().bench;
  const list = materialsOf(look);
  const lotOf = (id: string) => lots.find((one) => one.material === id);
  const setLot = (material: string, field: 'lot' | 'supplier', value: string) => {
    const index = lots.findIndex((one) => one.material === material);
    if (index < 0) change(['lots'], [...lots, { material, lot: '', supplier: '', [field]: value }]);
    else change(['lots', index, field], value);
  };
  const document = useMemo(() => {
    const known = lots.filter((one) => one.lot.trim() !== '' && list.some((item) => item.id === one.material));
    const weighed = [
      ...plan.pot.fats,
      ...plan.pot.doses,
      ...plan.lye.alkalis,
      ...plan.lye.liquids,
      ...plan.lye.doses,
      ...plan.jugs.flatMap((jug) => [...jug.held, ...jug.doses, ...jug.late_doses]),
    ];
    return {
      lamella: 'record/1' as const,
      batch: record.batch || 'not numbered yet',
      product: recipe.name,
      ...(record.started ? { started: record.started.replace('T', ' ') } : {}),
      ...(record.operator ? { operators: [record.operator] } : {}),
      lots: known.map((one) => ({ lot: one.lot, material: one.material, ...(one.supplier ? { supplier: one.supplier } : {}) })),
      weighings: weighed.flatMap((item) => {
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

const spread = <T,>(interval: { low: T; likely: T; high: T }, show: (value: T) => string): string =>
  `${show(interval.likely)} (${show(interval.low)} to ${show(interval.high)})`;

function Heat({ look }: { look: Look }) {
  const { recipe } = look;
  const { room } = papers();
  const [found, setFound] = useState<Warm | readonly Problem[] | undefined>();
  const fahrenheit = temperature('0 °C').endsWith('F');
  useEffect(() => {
    let gone = false;
    setFound(undefined);
    const setting = settingOf(room);
    const later = setTimeout(() => {
      void warm(recipe, setting, fahrenheit).then((warmed) => {
        if (!gone) setFound(warmed);
      });
    }, 250);
    return () => {
      gone = true;
      clearTimeout(later);
    };
  }, [recipe, room, fahrenheit]);
  const field = (
    <div class="panel no-print">
      <Quantity label="The room is at" kind="temperature" value={room} onValue={(value) => change(['room'], value ?? '21 °C')} hint="in a wooden box with its lid on" />
    </div>
  );
  if (!found) return <>{field}<p class="faint" role="status">Reckoning how warm it gets …</p></>;
  if (!('forecast' in found)) return <>{field}<Problems list={found} /></>;
  const { lye, block, cautions } = found.forecast;
  const rows: [string, string][] = [
    ['lye, when dissolved', temperature(lye.dissolved)],
    ['with all its water as ice', temperature(lye.dissolved_in_ice)],
    ...(lye.cools_in_air ? ([['cool enough in air after', when(lye.cools_in_air)]] as [string, string][]) : []),
    ['block, hottest', spread(block.peak, temperature)],
    ['that is after', spread(block.peak_at, when)],
    ['in', block.peak_layer],
    ['gels', spread(block.gelled, (share) => percent(share, 0))],
    ['a ring in the cut, of the forecasts', percent(block.ring, 0)],
    ['fit to cut after', spread(block.cut, when)],
    ...block.layers.map((layer): [string, string] => [`${layer.name} carries the next after`, spread(layer.carries, when)]),
  ];
  return (
    <>
      {field}
      <Actions />
      <div class="sheet">
        <h1>How warm it gets</h1>
        <p>Likely, and from the least to the greatest of seventeen forecasts. Estimates: trust your thermometer.</p>
        <Cautions placed list={cautions} />
        <dl class="pairs">
          {rows.map(([name, value]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
        <Svg text={found.svg} name="The section over time" />
      </div>
    </>
  );
}

const SEEN: readonly (readonly [Observation, string])[] = [
  ['dull-throughout', 'dull or brown all through'],
  ['dull-border', 'dull only at the border'],
  ['crack-on-top', 'a crack on top'],
  ['ash', 'white bloom'],
  ['weeping', 'drops or a film of liquid'],
  ['soft-centre', 'a soft middle'],
  ['crumbling', 'it crumbles when it is cut'],
  ['dark-spots', 'spots that grow'],
  ['specks', 'specks'],
];

function Causes({ look }: { look: Look }) {
  const { recipe, plan } = look;
  const [seen, setSeen] = useState<Observation>('dull-throughout');
  const [layer, setLayer] = useState('');
  const found = useMemo(() => causes(recipe, seen, layer === '' ? undefined : Number(layer)), [recipe, seen, layer]);
  return (
    <>
      <div class="panel no-print">
        <div class="grid">
          <Choice label="What is seen" value={seen} options={SEEN} onValue={setSeen} />
          <Choice
            label="Where"
            value={layer}
            options={[['', 'the whole bar'], ...plan.layers.map((one, index) => [String(index), one.name] as const)]}
            onValue={setLayer}
          />
        </div>
      </div>
      <ol class="causes">
        {found.map((cause) => (
          <li key={cause.code} class="panel">
            <h3>
              {sentence(cause.what)} <span class="faint">{cause.standing}</span>
            </h3>
            {cause.speaks_for.length > 0 && <p>For it: {cause.speaks_for.map((one) => `${local(one.figure)}, ${one.says}`).join('; ')}.</p>}
            {cause.speaks_against.length > 0 && <p>Against it: {cause.speaks_against.map((one) => `${local(one.figure)}, ${one.says}`).join('; ')}.</p>}
            <p>To tell: {cause.tell}.</p>
            <p>{sentence(cause.advice)}</p>
            <p class="faint">{sentence(cause.source)}</p>
          </li>
        ))}
      </ol>
      <Safety look={look} />
    </>
  );
}

