// What the block sets in: walls, lid, wrapping, room, and how that changes. The heat/1 document itself is what is kept.
import { useId, useMemo } from 'preact/hooks';
import { LamellaError, readHeat } from '../../lamella';
import type { Heat, HeatPour, HeatSurroundings, Problem, Recipe } from '../../lamella';
import { pointer, set, without, type Path } from '../../change';
import { openFiles, saveHeat } from '../../files';
import { usualHeat } from '../../papers';
import { papers } from '../../store';
import { Choice, Quantity } from '../Field';
import { Problems } from '../Parts';
import { change } from './paper';
import { Sheets } from './Sheets';

const LATER = ['2 h', '6 h', '12 h', '24 h', '36 h', '48 h', '72 h', '120 h', '240 h', '336 h'];
const OWN = [
  ['rate', 'Rate of the reaction'],
  ['insulation', 'Insulation'],
  ['heat', 'Heat of the reaction'],
] as const;

/** What is wrong with a setting. */
function wrongWith(heat: Heat): readonly Problem[] {
  try {
    readHeat(heat);
    return [];
  } catch (error) {
    if (error instanceof LamellaError) return error.problems;
    throw error;
  }
}

const put = (path: Path, value: unknown) => change(['heat', ...path], value);

export function Surroundings({ recipe }: { recipe: Recipe }) {
  const { heat } = papers();
  const problems = useMemo(() => wrongWith(heat), [heat]);
  const usual = usualHeat();
  const stages = heat.surroundings ?? usual.surroundings!;
  const moulds = recipe.moulds ?? [];
  const told = (...path: Path) => problems.find((one) => one.pointer === pointer(path));
  const ordered = told('surroundings');
  const file = useId();
  return (
    <div class="setting">
      {moulds.length > 1 && (
        <Choice
          label="The forecast is for"
          value={String(heat.mould ?? 1)}
          options={moulds.map((one, index) => [String(index + 1), one.mould ?? `mould ${index + 1}`] as const)}
          onValue={(value) => put(['mould'], Number(value))}
        />
      )}
      <div class="linings">
        <Sheets title="Walls, from the soap outwards" none="No walls: the soap stands free." list={heat.walls ?? usual.walls!} path={['walls']} told={told} put={put} />
        <Sheets title="Bottom, from the soap down" none="The soap lies on the table." list={heat.base ?? usual.base!} path={['base']} told={told} put={put} hint="A wooden table below is reckoned with. On a rack or a cold stone it cools faster." />
      </div>
      {stages.map((stage, index) => (
        <Stage
          key={index}
          stage={stage}
          index={index}
          told={told}
          problem={told('surroundings', index, 'from') ?? (index > 0 ? ordered : undefined)}
          onDrop={() => put(['surroundings'], without(stages, index))}
        />
      ))}
      <div class="actions">
        <button type="button" onClick={() => put(['surroundings'], [...stages, later(heat, stages)])}>
          Something changes later
        </button>
      </div>
      <p class="hint">Wrapped only for a while, moved into a fridge, an oven that is switched off: each is a change at its hour.</p>
      <Pours heat={heat} recipe={recipe} told={told} ordered={told('pours')} />
      <details class="more">
        <summary>Look ahead, own figures</summary>
        <div class="grid">
          <Quantity label="Look ahead for" kind="time" optional value={heat.until} placeholder="48" problem={told('until')} onValue={(value) => put(['until'], value)} />
        </div>
        <p class="hint">Figures of your own come from a fit to a thermometer's log: 100 % is what is usual. Empty: the usual ones.</p>
        <div class="grid">
          {OWN.flatMap(([name, label]) => [
            <Quantity key={name} label={label} kind="share" optional value={heat.own?.[name]} placeholder="100" problem={told('own', name)} onValue={(value) => put(['own', name], value)} />,
            <Quantity key={`${name}_within`} label={`${label}, known within`} kind="share" optional value={heat.own?.[`${name}_within`]} problem={told('own', `${name}_within`)} onValue={(value) => put(['own', `${name}_within`], value)} />,
          ])}
        </div>
      </details>
      {problems.some((one) => elsewhere(one)) && <Problems list={problems.filter(elsewhere)} />}
      <div class="actions">
        <button type="button" onClick={() => saveHeat(heat, recipe.name)}>
          Save as a file
        </button>
        <label class="button" for={file}>
          Open a file
          <input
            id={file}
            class="unseen"
            type="file"
            accept=".json,application/json"
            onChange={(event) => {
              void openFiles(event.currentTarget.files);
              event.currentTarget.value = '';
            }}
          />
        </label>
        <button type="button" onClick={() => change(['heat'], usualHeat())}>
          Back to the usual box
        </button>
      </div>
    </div>
  );
}

/** What no field here tells. */
const elsewhere = (problem: Problem): boolean =>
  !/\/(thickness|sheet|from|air|at|temperature|until|surroundings|pours)$|^\/own\//.test(problem.pointer);

/** A change after the last one, that leaves all else as it is. */
function later(heat: Heat, stages: readonly HeatSurroundings[]): HeatSurroundings {
  const last = stages[stages.length - 1]!;
  const fits = (from: string) =>
    !wrongWith(set(heat, ['surroundings'], [...stages, { ...last, from }])).some((one) => one.pointer === '/surroundings');
  return { ...last, from: LATER.find(fits) ?? last.from };
}

interface StageProps {
  stage: HeatSurroundings;
  index: number;
  told: (...path: Path) => Problem | undefined;
  problem: Problem | undefined;
  onDrop: () => void;
}

/** What surrounds the block from one time to the next. */
function Stage({ stage, index, told, problem, onDrop }: StageProps) {
  const here = ['surroundings', index];
  const first = index === 0;
  return (
    <fieldset class="stage">
      <legend>{first ? 'From the first pour' : `Change ${index}`}</legend>
      <div class="grid">
        {!first && (
          <Quantity label="From, after the first pour" kind="time" value={stage.from} problem={problem} onValue={(value) => put([...here, 'from'], value)} hint="in hours; “45 min” may be typed too" />
        )}
        <Quantity
          label={first ? 'The room is at' : 'The air is then at'}
          kind="temperature"
          value={stage.air}
          problem={told(...here, 'air')}
          onValue={(value) => put([...here, 'air'], value)}
          hint="or the oven, or the fridge that it stands in"
        />
      </div>
      <div class="linings">
        <Sheets title="Lid or cover" none="No lid: open to the air." list={stage.cover ?? []} path={[...here, 'cover']} told={told} put={put} />
        <Sheets title="Wrapped in" none="Not wrapped." list={stage.around ?? []} path={[...here, 'around']} told={told} put={put} begin="blanket" hint="around walls and lid" />
      </div>
      {!first && (
        <div class="actions">
          <button type="button" onClick={onDrop}>
            Leave this change out
          </button>
        </div>
      )}
    </fieldset>
  );
}

interface PoursProps {
  heat: Heat;
  recipe: Recipe;
  told: (...path: Path) => Problem | undefined;
  ordered: Problem | undefined;
}

/** When each layer is poured, and how warm it was. */
function Pours({ heat, recipe, told, ordered }: PoursProps) {
  const pours = heat.pours ?? [];
  const next = recipe.layers[pours.length];
  const add = () => {
    const last = pours[pours.length - 1];
    const quarter: HeatPour = { at: `${15 * pours.length} min` };
    const wrong = wrongWith(set(heat, ['pours'], [...pours, quarter])).some((one) => one.pointer === '/pours');
    put(['pours'], [...pours, wrong && last ? { at: last.at } : quarter]);
  };
  return (
    <details class="more" open={pours.length > 0}>
      <summary>When each layer is poured</summary>
      <p class="hint">
        Where nothing is said, a layer follows a quarter of an hour after the one below it, as warm as mixing makes it.
      </p>
      {pours.map((pour, index) => {
        const name = recipe.layers[index]?.layer ?? `layer ${index + 1}`;
        return (
          <div class="grid" key={index}>
            <Quantity label={`${name} is poured after`} kind="time" value={pour.at} problem={told('pours', index, 'at') ?? (index === pours.length - 1 ? ordered : undefined)} onValue={(value) => put(['pours', index, 'at'], value)} />
            <Quantity label={`${name} is then at`} kind="temperature" optional value={pour.temperature} problem={told('pours', index, 'temperature')} onValue={(value) => put(['pours', index, 'temperature'], value)} />
          </div>
        );
      })}
      <div class="actions">
        {next && (
          <button type="button" onClick={add}>
            Say it of {next.layer}
          </button>
        )}
        {pours.length > 0 && (
          <button type="button" onClick={() => put(['pours'], pours.length > 1 ? pours.slice(0, -1) : undefined)}>
            Take the last away
          </button>
        )}
      </div>
    </details>
  );
}
