// A layer: how much of it, from which jug, and what is stirred into it.
import { free, home, moved, set, shareJug, useJug, without } from '../../change';
import { edit, put, type Look } from '../../store';
import { useWarm } from '../../warm';
import { rounded, length, percent, temperature, weighed, when } from '../../units';
import { Doses } from '../Doses';
import { Choice, Quantity, Text } from '../Field';
import { Cautions, Figure } from '../Parts';
import { Sure } from './Superfat';
import { problemAt, setAt, under } from '../places';

/** A layer more, as much as the one below it; it is shown, and its name waits to be typed. */
export function addLayer(at: number): void {
  edit((now) => {
    const name = free('New layer', now.layers.map((one) => one.layer));
    const layers = now.layers.slice();
    layers.splice(at, 0, { layer: name, share: now.layers[Math.max(0, at - 1)]!.share });
    return set(now, ['layers'], layers);
  });
  put({ place: { at: 'layer', index: at } });
  setTimeout(() => document.querySelector<HTMLInputElement>('.title input')?.select(), 60);
}

export function Layer({ look, index }: { look: Look; index: number }) {
  const { recipe, plan, picture } = look;
  const layer = recipe.layers[index];
  const planned = plan.layers[index];
  if (!layer) return null;
  const jug = planned ? plan.jugs[planned.jug] : undefined;
  const where = home(recipe, index);
  const mates = recipe.layers.filter((one, i) => i !== index && layer.jug !== undefined && one.jug === layer.jug);
  const jugAt = (recipe.jugs ?? []).findIndex((one) => one.jug === layer.jug);
  const here = ['layers', index];
  const rename = (name: string) => {
    edit((now) => set(now, [...here, 'layer'], name));
  };
  const add = () => addLayer(index + 1);
  const drop = () => {
    edit((now) => {
      const next = useJug(now, index, undefined);
      return set(next, ['layers'], without(next.layers, index));
    }, `${layer.layer} was taken out.`);
    put({ place: { at: 'bar' } });
  };
  const order = (to: number) => {
    if (to < 0 || to >= recipe.layers.length) return;
    edit((now) => set(now, ['layers'], moved(now.layers, index, to)));
    put({ place: { at: 'layer', index: to } });
  };
  const jugs = (recipe.jugs ?? []).map((one) => one.jug);
  const others = recipe.layers
    .map((one, i) => [`with ${i}`, `the same jug as ${one.layer}`] as const)
    .filter((_, i) => i !== index && recipe.layers[i]!.jug === undefined);
  return (
    <article class="panel">
      <Text
        class="title"
        quiet
        label="Name of the layer"
        value={layer.layer}
        onValue={rename}
        problem={problemAt(look, [...here, 'layer'])}
      />
      {planned && jug && picture && (
        <div class="figures">
          <Figure of={`portion/${index}`} name="poured">
            {weighed(planned.portion, plan.scales[jug.portion.scale]!.step)}
          </Figure>
          <Figure of={`height/${index}`} name="stands">
            {picture.layers[index] ? length(picture.layers[index].thickness) : '–'}
          </Figure>
          <Figure of={`superfat/${planned.jug}`} name="superfat">
            {percent(jug.superfat)}
          </Figure>
          <Figure of={`density/${planned.jug}`} name="density">
            {rounded(jug.density, 3)}
          </Figure>
        </div>
      )}
      {planned && <Sure look={look} jug={planned.jug} />}
      <Warmth look={look} index={index} />
      <Cautions list={under(look, `/layers/${index}`, ...(jugAt >= 0 ? [`/jugs/${jugAt}`] : [])).filter((one) => !/\/(doses|colours|scents)\//.test(one.pointer))} />
      <div class="grid">
        <Quantity
          label="Share of the bar"
          kind="layer"
          value={layer.share}
          onValue={(value) => setAt([...here, 'share'], value)}
          problem={problemAt(look, [...here, 'share'])}
          hint="or drag its edge in the picture"
        />
        <Choice
          label="Poured from"
          value={layer.jug ?? ''}
          options={[['', 'a jug of its own'], ...jugs.map((name) => [name, `jug “${name}”`] as const), ...others]}
          onValue={(value) =>
            edit((now) => {
              const other = /^with (\d+)$/.exec(value);
              if (other && !jugs.includes(value)) return shareJug(now, index, Number(other[1]));
              return useJug(now, index, value || undefined);
            })
          }
        />
      </div>
      <h3>What is stirred into it</h3>
      {mates.length > 0 && (
        <p class="faint">
          One jug, one mixture: this is also {listed(mates.map((one) => one.layer))}.
        </p>
      )}
      <Doses look={look} path={where} add={`Add to ${layer.layer}`} />
      <details class="more">
        <summary>Its jug</summary>
        <JugFields look={look} index={index} jugAt={jugAt} />
      </details>
      <div class="actions">
        <button type="button" onClick={add}>
          Add a layer above
        </button>
        <button type="button" onClick={() => order(index + 1)} disabled={index === recipe.layers.length - 1}>
          Move up
        </button>
        <button type="button" onClick={() => order(index - 1)} disabled={index === 0}>
          Move down
        </button>
        <button type="button" onClick={drop} disabled={recipe.layers.length === 1}>
          Take out
        </button>
      </div>
    </article>
  );
}

/** When the layer carries the next, and whether it gels. */
function Warmth({ look, index }: { look: Look; index: number }) {
  const { warm } = useWarm(look.recipe);
  const layer = warm?.forecast.block.layers[index];
  if (!layer) return null;
  return (
    <p class="sure">
      Poured at {temperature(layer.poured_at)}; likely carries the next layer after {when(layer.carries.likely)} (
      {when(layer.carries.low)} to {when(layer.carries.high)}), and gels {percent(layer.gelled.likely, 0)} (
      {percent(layer.gelled.low, 0)} to {percent(layer.gelled.high, 0)}).
    </p>
  );
}

const listed = (names: readonly string[]) =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;

function JugFields({ look, index, jugAt }: { look: Look; index: number; jugAt: number }) {
  const { recipe } = look;
  const jug = recipe.jugs?.[jugAt];
  const change = (field: 'tare' | 'residue', value: string | undefined) =>
    edit((now) => {
      let next = now;
      let place = jugAt;
      if (place < 0) {
        if (value === undefined) return now;
        const name = free(now.layers[index]!.layer, (now.jugs ?? []).map((one) => one.jug));
        next = useJug(now, index, name);
        place = next.jugs!.findIndex((one) => one.jug === name);
      }
      return set(next, ['jugs', place, field], value);
    });
  return (
    <div class="grid">
      <Quantity
        label="The empty jug weighs"
        kind="mass"
        optional
        value={jug?.tare ?? ''}
        onValue={(value) => change('tare', value)}
        hint="empty: the scale is set to nought with it"
        problem={problemAt(look, ['jugs', jugAt, 'tare'])}
      />
      <Quantity
        label="What stays on its walls"
        kind="mass"
        optional
        value={jug?.residue ?? ''}
        placeholder={recipe.workshop?.jug_residue?.replace(/ g$/, '') ?? ''}
        onValue={(value) => change('residue', value)}
        hint="empty: as the workshop says"
        problem={problemAt(look, ['jugs', jugAt, 'residue'])}
      />
    </div>
  );
}
