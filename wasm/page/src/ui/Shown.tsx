// What the picture shows: the colours of the layers, or how warm they are at a time that the maker chooses.
import { useMemo } from 'preact/hooks';
import { heatColour } from '../lamella';
import type { Forecast, LayerForecast } from '../lamella';
import { get, papers, put, type Look, type Place } from '../store';
import { shownHours, temperature, when } from '../units';
import { useWarm } from '../warm';
import { Bar, type Tint } from './Bar';
import { Swatch, Switch } from './Field';
import { Problems } from './Parts';

interface ShownProps {
  look: Look;
  place: Place;
  mould: number;
}

export function Shown(props: ShownProps) {
  return <div class="shown">{get().shows === 'warmth' ? <WarmBar {...props} /> : <ColourBar {...props} />}</div>;
}

/** The same for every edit: it is not even compared. */
function Which() {
  const { shows } = get();
  return useMemo(
    () => (
      <Switch
        label="Picture in"
        value={shows}
        options={[['colour', 'colour'], ['warmth', 'warmth']]}
        onValue={(to) => put({ shows: to })}
      />
    ),
    [shows],
  );
}

const ColourBar = (props: ShownProps) => (
  <>
    <Bar {...props} />
    <Which />
  </>
);

/** The layers of a forecast by those of the plan: one as thin as a hair is in no forecast. */
function byLayer(block: Forecast | undefined, names: readonly string[]): (LayerForecast | undefined)[] {
  let next = 0;
  return names.map((name) => {
    const layer = block?.layers[next];
    if (layer?.name !== name) return undefined;
    next += 1;
    return layer;
  });
}

const bare = (text: string) => text.replace(/\u202f.*$/, '');

/** The bar, each layer tinted by its temperature. */
function WarmBar(props: ShownProps) {
  const { look, mould } = props;
  const { moment } = get();
  const { warm, problems, last } = useWarm(look.recipe);
  const block = (warm ?? last)?.forecast.block;
  const found = block ? block.times.indexOf(moment) : -1;
  const at = block ? (found < 0 ? block.hottest : found) : 0;
  const layers = byLayer(block, look.plan.layers.map((layer) => layer.name));
  const tint: Tint = {
    said: block ? `Tinted by temperature, ${after(block.times[at]!)}.` : '',
    old: !warm,
    colour: (index) => {
      const likely = layers[index]?.warmth.likely[at];
      return likely ? heatColour(likely) : undefined;
    },
    note: (index) => {
      const layer = layers[index];
      if (!layer) return problems ? 'no forecast' : '…';
      const { low, likely, high } = layer.warmth;
      if (!likely[at]) return 'not poured yet';
      return (
        <>
          <b class="degrees">{temperature(likely[at])}</b> ({bare(temperature(low[at]!))} to {bare(temperature(high[at]!))})
        </>
      );
    },
  };
  const other = (papers().heat.mould ?? 1) - 1;
  return (
    <>
      <Bar {...props} tint={tint} />
      <Which />
      <div class="moment">
        {problems ? <Problems list={problems} /> : <p class="faint small" role="status">{warm ? '' : 'Reckoning how warm it gets …'}</p>}
        {block && (
          <>
            <Moment block={block} at={at} />
            <Ramp />
            <p class="faint small">
              {found >= 0 && found !== block.hottest && (
                <button type="button" class="text" onClick={() => put({ moment: '' })}>
                  To the hottest moment
                </button>
              )}
              Hottest: {temperature(block.peak.likely)} ({bare(temperature(block.peak.low))} to {bare(temperature(block.peak.high))}) in{' '}
              {block.peak_layer}, likely after {when(block.peak_at.likely)}
              {other !== mould && `, in mould ${other + 1}`}. Layers are shown by their mean, with the least and the greatest
              of seventeen forecasts at that time. Estimates: trust your thermometer.
            </p>
          </>
        )}
        <div class="actions">
          <button type="button" onClick={() => put({ place: { at: 'mould', part: 'setting' } })}>
            Walls, wrapping, room
          </button>
        </div>
      </div>
    </>
  );
}

const after = (time: string): string => (parseFloat(time) === 0 ? 'at the first pour' : `${shownHours(time)} after the first pour`);

/** The time that is looked at. */
function Moment({ block, at }: { block: Forecast; at: number }) {
  const said = `${after(block.times[at]!)}${at === block.hottest ? ', the hottest moment' : ''}`;
  return (
    <label class="field">
      <span class="label-text">
        When: <b>{said}</b>
      </span>
      <input
        type="range"
        min={0}
        max={block.times.length - 1}
        step={1}
        value={at}
        aria-valuetext={said}
        onInput={(event) => put({ moment: block.times[Number(event.currentTarget.value)]! })}
      />
    </label>
  );
}

const MARKS = ['20 °C', '40 °C', '60 °C', '80 °C', '100 °C'];

/** What the colours stand for. */
const Ramp = () => (
  <ul class="ramp" aria-label="What the colours stand for">
    {MARKS.map((mark) => (
      <li key={mark}>
        <Swatch colour={heatColour(mark)} /> {temperature(mark)}
      </li>
    ))}
  </ul>
);
