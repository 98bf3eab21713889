// The shelf of recipes: open, save, share, compare.
import { useState } from 'preact/hooks';
import { copyLink, openFiles, saveAll, saveRecipe } from '../files';
import { example } from '../lamella';
import { drop, isLook, lookAt, put, take, type Look, type State } from '../store';
import { length, mass, percent } from '../units';
import { Choice } from './Field';
import { Asides } from './Messages';

export function Recipes({ state }: { state: State }) {
  return (
    <section class="panel shelf-of-recipes">
      <h1>Recipes</h1>
      <div class="actions">
        <label class="button">
          Open a file
          <input
            type="file"
            class="unseen"
            accept=".json,application/json"
            multiple
            onChange={(event) => {
              const input = event.currentTarget;
              void openFiles(input.files).then(() => {
                input.value = '';
              });
            }}
          />
        </label>
        <button type="button" onClick={() => take(PLAIN, 'A plain recipe to begin with.')}>
          Begin a new one
        </button>
        <button type="button" onClick={() => take(example(), 'The example, afresh.')}>
          The example
        </button>
        <button type="button" onClick={saveAll}>
          Download everything
        </button>
      </div>
      <p class="faint">Recipes are kept in this browser only. A file may also be dropped anywhere on the page.</p>
      <ul class="rows">
        {state.shelf.map((kept) => (
          <li key={kept.id} class={kept.id === state.current ? 'here' : ''}>
            <div class="row">
              <button
                type="button"
                class="known"
                onClick={() => put({ current: kept.id, mode: 'plan', place: { at: 'bar' }, mould: 0, notice: '' })}
              >
                {kept.recipe.name}
                <span class="beside">
                  {kept.recipe.layers?.length ?? 0} layers{kept.bench.begun ? ', on the bench' : ''}
                  {kept.aside ? ` · a copy: ${kept.aside}` : ''}
                </span>
              </button>
              <button type="button" onClick={() => saveRecipe(kept.recipe)}>
                Save
              </button>
              <button type="button" onClick={() => void copyLink(kept.recipe)}>
                Link
              </button>
              <button type="button" onClick={() => take(kept.recipe, `A copy of ${kept.recipe.name}.`)}>
                Copy
              </button>
              <button
                type="button"
                class="drop"
                aria-label={`Delete ${kept.recipe.name}`}
                onClick={() => {
                  if (confirm(`Delete “${kept.recipe.name}” from this browser?`)) drop(kept.id);
                }}
              >
                ×
              </button>
            </div>
          </li>
        ))}
      </ul>
      <Asides />
      {state.shelf.length > 1 && <Compare state={state} />}
    </section>
  );
}

/** Two recipes side by side. */
function Compare({ state }: { state: State }) {
  const [left, setLeft] = useState(state.current);
  const [right, setRight] = useState(state.shelf.find((one) => one.id !== state.current)?.id ?? state.current);
  const options = state.shelf.map((one) => [one.id, one.recipe.name] as const);
  const looks = [left, right].map((id) => {
    const one = state.shelf.find((kept) => kept.id === id);
    const found = one ? lookAt(one.recipe, 0) : undefined;
    return found && isLook(found) ? found : undefined;
  });
  const rows: [string, string, string][] = [];
  const add = (name: string, of: (look: Look) => string) => {
    const each = looks.map((look) => (look ? of(look) : '–'));
    rows.push([name, each[0]!, each[1]!]);
  };
  add('fat', (look) => mass(look.plan.batch.fat));
  add('lye', (look) => percent(look.plan.lye.figures.concentration));
  add('superfat', (look) => percent(look.plan.batch.superfat, 2));
  add('poured', (look) => mass(look.plan.batch.poured));
  add('cured', (look) => mass(look.plan.batch.cured.total));
  const fats = new Set(looks.flatMap((look) => (look ? look.plan.pot.fats.map((item) => item.name) : [])));
  for (const fat of fats) {
    add(fat, (look) => {
      const item = look.plan.pot.fats.find((one) => one.name === fat);
      return item ? mass(item.weighed) : '–';
    });
  }
  const layers = Math.max(...looks.map((look) => (look ? look.plan.layers.length : 0)));
  for (let index = layers - 1; index >= 0; index -= 1) {
    add(`layer ${index + 1}`, (look) => {
      const layer = look.plan.layers[index];
      const drawn = look.picture?.layers[index];
      if (!layer) return '–';
      const superfat = percent(look.plan.jugs[layer.jug]!.superfat);
      return `${layer.name}: ${drawn ? `${length(drawn.thickness)}, ` : ''}superfat ${superfat}`;
    });
  }
  return (
    <section class="compare">
      <h2>Compare two</h2>
      <div class="grid">
        <Choice label="This" value={left} options={options} onValue={setLeft} />
        <Choice label="with this" value={right} options={options} onValue={setRight} />
      </div>
      <div class="pair-of-bars">
        {looks.map((look, side) =>
          look?.picture ? (
            <svg key={side} viewBox={`0 0 ${parseFloat(look.picture.width)} ${parseFloat(look.picture.depth)}`} role="img" aria-label={`Cross-section of ${look.recipe.name}`}>
              <path class="hollow" d={`${look.picture.hollow}Z`} />
              {look.picture.layers.map((layer, index) => (
                <path key={index} fill={layer.swatch} d={layer.outline.path || undefined} />
              ))}
            </svg>
          ) : null,
        )}
      </div>
      <div class="scroll" tabIndex={0} role="group" aria-label="comparison">
        <table>
          <tbody>
            {rows.map(([name, one, other]) => (
              <tr key={name} class={one === other ? '' : 'differs'}>
                <th scope="row">{name}</th>
                <td>{one}</td>
                <td>{other}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

/** A recipe to begin with: two layers, three fats. */
const PLAIN = {
  lamella: 'recipe/1' as const,
  name: 'New bar',
  for: 'household' as const,
  fats: [
    { fat: 'olive-oil', share: '60 %' },
    { fat: 'coconut-oil', share: '30 %' },
    { fat: 'shea-butter', share: '10 %' },
  ],
  alkali: { naoh: {} },
  superfat: '7 %',
  water: { lye_concentration: '33 %' },
  size: { moulds: 'filled' as const },
  moulds: [{ mould: 'loaf', shape: 'loaf' as const, length: '250 mm', width: '80 mm', height: '70 mm', fill: '65 mm' }],
  layers: [
    { layer: 'Lower', share: '1 part' },
    { layer: 'Upper', share: '1 part' },
  ],
};
