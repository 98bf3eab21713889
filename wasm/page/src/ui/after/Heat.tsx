// The forecast of how warm it gets.
import { useEffect, useState } from 'preact/hooks';
import type { Problem } from '../../lamella';
import { warm, type Warm } from '../../worker';
import { papers, settingOf, type Look } from '../../store';
import { percent, temperature, when } from '../../units';
import { Quantity } from '../Field';
import { Cautions, Pairs, Problems } from '../Parts';
import { Svg } from '../Svg';
import { Actions, change } from './paper';

const spread = <T,>(interval: { low: T; likely: T; high: T }, show: (value: T) => string): string =>
  `${show(interval.likely)} (${show(interval.low)} to ${show(interval.high)})`;

export function Heat({ look }: { look: Look }) {
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
        <Pairs list={rows} />
        <Svg text={found.svg} name="The section over time" />
      </div>
    </>
  );
}
