// The workshop: scales, what stays behind, temperatures.
import { free, set, without } from '../../change';
import { edit, type Look } from '../../store';
import { temperature } from '../../units';
import { Quantity, Text } from '../Field';
import { Cautions } from '../Parts';
import { problemAt, setAt, under } from '../places';

export function Workshop({ look }: { look: Look }) {
  const { recipe, plan } = look;
  const scales = recipe.workshop?.scales ?? plan.scales.map((scale) => ({ scale: scale.name, step: scale.step, capacity: scale.capacity }));
  const change = (index: number, field: string, value: unknown) =>
    edit((now) => set(now, ['workshop', 'scales'], set(scales, [index, field], value)));
  const stays = [
    ['jug_residue', 'Stays in a jug'],
    ['pot_residue', 'Stays in the pot'],
    ['lye_residue', 'Stays in the lye vessel'],
  ] as const;
  return (
    <article class="panel">
      <h2>The workshop</h2>
      <Cautions list={under(look, '/temperatures', '/workshop')} />
      <h3>Scales</h3>
      {scales.map((scale, index) => (
        <div class="grid" key={index}>
          <Text label="Scale" value={scale.scale} onValue={(value) => change(index, 'scale', value)} />
          <Quantity label="shows steps of" kind="mass" value={scale.step} onValue={(value) => change(index, 'step', value)} problem={problemAt(look, ['workshop', 'scales', index, 'step'])} />
          <Quantity label="carries up to" kind="mass" value={scale.capacity} onValue={(value) => change(index, 'capacity', value)} problem={problemAt(look, ['workshop', 'scales', index, 'capacity'])} />
          {scales.length > 1 && (
            <button type="button" class="drop" aria-label={`Take away the scale ${scale.scale}`} onClick={() => edit((now) => set(now, ['workshop', 'scales'], without(scales, index)))}>
              ×
            </button>
          )}
        </div>
      ))}
      <div class="actions">
        <button type="button" onClick={() => edit((now) => set(now, ['workshop', 'scales'], [...scales, { scale: free('scale', scales.map((s) => s.scale)), step: '1 g', capacity: '5 kg' }]))}>
          Add a scale
        </button>
      </div>
      <h3>What stays behind</h3>
      <div class="grid">
        {stays.map(([name, label]) => (
          <Quantity
            key={name}
            label={label}
            kind="mass"
            optional
            value={recipe.workshop?.[name] ?? ''}
            onValue={(value) => setAt(['workshop', name], value)}
            problem={problemAt(look, ['workshop', name])}
          />
        ))}
      </div>
      <h3>Temperatures at mixing</h3>
      <div class="grid">
        <Quantity label="Fats" kind="temperature" value={recipe.temperatures?.fats ?? plan.temperatures.fats} onValue={(value) => setAt(['temperatures', 'fats'], value)} problem={problemAt(look, ['temperatures', 'fats'])} />
        <Quantity label="Lye" kind="temperature" value={recipe.temperatures?.lye ?? plan.temperatures.lye} onValue={(value) => setAt(['temperatures', 'lye'], value)} problem={problemAt(look, ['temperatures', 'lye'])} />
      </div>
      <p class="faint">Planned at {temperature(plan.temperatures.fats)} and {temperature(plan.temperatures.lye)}.</p>
    </article>
  );
}
