// The forecast of how warm it gets.
import type { Heat as HeatSetting } from '../../lamella';
import { usualHeat } from '../../papers';
import { papers, type Look } from '../../store';
import { percent, shownHours, temperature, when } from '../../units';
import { useWarm } from '../../warm';
import { Cautions, Pairs, Problems } from '../Parts';
import { Svg } from '../Svg';
import { Actions } from './paper';
import { sheetsSaid } from './Sheets';
import { Surroundings } from './Surroundings';

const spread = <T,>(interval: { low: T; likely: T; high: T }, show: (value: T) => string): string =>
  `${show(interval.likely)} (${show(interval.low)} to ${show(interval.high)})`;

/** What the block sets in, in words. */
function settingSaid({ walls, base, surroundings }: HeatSetting): string[] {
  const usual = usualHeat();
  const stages = (surroundings ?? usual.surroundings!).map((stage, index) =>
    [
      `${index === 0 ? 'from the first pour' : `from ${shownHours(stage.from)}`}: air at ${temperature(stage.air)}`,
      stage.cover?.length ? `under ${sheetsSaid(stage.cover)}` : 'no lid',
      stage.around?.length ? `wrapped in ${sheetsSaid(stage.around)}` : 'not wrapped',
    ].join('; '),
  );
  return [
    `walls: ${sheetsSaid(walls ?? usual.walls) || 'none'}`,
    `bottom: ${sheetsSaid(base ?? usual.base) || 'the table'}`,
    ...stages,
  ];
}

export function Heat({ look }: { look: Look }) {
  const { recipe } = look;
  const { heat } = papers();
  const { warm, problems } = useWarm(recipe, 250);
  const setting = (
    <details class="panel no-print">
      <summary>
        <h2>Walls, wrapping, room</h2>
      </summary>
      <Surroundings recipe={recipe} />
    </details>
  );
  if (problems) return <>{setting}<Problems list={problems} /></>;
  if (!warm) return <>{setting}<p class="faint" role="status">Reckoning how warm it gets …</p></>;
  const { lye, block, cautions } = warm.forecast;
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
      {setting}
      <Actions />
      <div class="sheet">
        <h1>How warm it gets</h1>
        <p>Likely, and from the least to the greatest of seventeen forecasts. Estimates: trust your thermometer.</p>
        <Cautions placed list={cautions} />
        <Pairs list={rows} />
        <h2>What it sets in</h2>
        <ul>
          {settingSaid(heat).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        <Svg text={warm.svg} name="The section over time" />
      </div>
    </>
  );
}
