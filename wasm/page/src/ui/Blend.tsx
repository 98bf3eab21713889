// A blend that meets what is asked of it: the library searches, the maker decides.
import { useState } from 'preact/hooks';
import { blend, LamellaError, type Blend as Asked, type BlendBlendDemand, type FoundBlend, type Problem, type RecipeFat } from '../lamella';
import { set } from '../change';
import { edit, papers, setPapers, setPrice, type Look } from '../store';
import { local } from '../units';
import { CLASSES, type ClassName } from '../classes';
import { Choice, Quantity } from './Field';
import { Over, sentence } from './Parts';

type Bounds = Record<string, { least?: string; most?: string }>;
type Aim = 'nearest usual' | 'cheapest' | 'fewest fats';

/** Looks for shares of the fats that are there. */
export function BlendFinder({ look, onClose }: { look: Look; onClose: () => void }) {
  const { recipe, plan } = look;
  const { prices, stock } = papers();
  const [bounds, setBounds] = useState<Bounds>({});
  const [aim, setAim] = useState<Aim>('nearest usual');
  const [found, setFound] = useState<FoundBlend | readonly Problem[] | undefined>();
  const nameOf = (id: string) => plan.pot.fats.find((item) => item.id === id)?.name ?? id;
  const bound = (name: string, end: 'least' | 'most', value: string | undefined) => {
    setBounds({ ...bounds, [name]: { ...bounds[name], [end]: value } });
    setFound(undefined);
  };
  const search = () => {
    const demands: BlendBlendDemand[] = [];
    for (const [name, { least, most }] of Object.entries(bounds)) {
      if (!least && !most) continue;
      const of = name === 'iodine value' ? { figure: 'iodine value' as const } : { class: name as ClassName };
      demands.push({ ...of, ...(least ? { at_least: least } : {}), ...(most ? { at_most: most } : {}) });
    }
    const request: Asked = {
      lamella: 'blend/1',
      name: recipe.name,
      size: plan.batch.fat,
      step: '1 %',
      fats: recipe.fats.map((line) => {
        const price = prices.materials.find((one) => one.material === line.fat);
        return {
          fat: line.fat,
          ...(line.share ? { usual: line.share } : {}),
          ...(price ? { price: `${price.price} ${prices.currency}/${price.pack}` } : {}),
          ...(stock[line.fat] ? { stock: stock[line.fat] } : {}),
          ...(line.certificate ? { certificate: line.certificate } : {}),
        };
      }),
      demands,
      aims: [aim],
    };
    try {
      setFound(blend(request));
    } catch (error) {
      if (!(error instanceof LamellaError)) throw error;
      setFound(error.problems);
    }
  };
  const use = (fats: string) => {
    const lines = JSON.parse(fats) as RecipeFat[];
    edit((now) => set(now, ['fats'], lines), 'The fats are those of the blend.');
    onClose();
  };
  return (
    <Over title="Find shares" onClose={onClose}>
      <p class="faint">From the fats of the recipe, in whole per cent. Add more fats first to have more to choose from.</p>
      <Choice
        label="Best in"
        value={aim}
        options={[
          ['nearest usual', 'nearest to what the shares are now'],
          ['cheapest', 'cheapest'],
          ['fewest fats', 'fewest fats'],
        ]}
        onValue={(value) => {
          setAim(value);
          setFound(undefined);
        }}
      />
      <h3>What the fatty acids must be</h3>
      <ul class="rows">
        {CLASSES.map(([name, label]) => (
          <li key={name} class="bounds">
            <span>{label}</span>
            <Quantity quiet optional label={`${label}, at least`} kind="share" placeholder="at least" value={bounds[name]?.least ?? ''} onValue={(value) => bound(name, 'least', value)} />
            <Quantity quiet optional label={`${label}, at most`} kind="share" placeholder="at most" value={bounds[name]?.most ?? ''} onValue={(value) => bound(name, 'most', value)} />
          </li>
        ))}
        <li class="bounds">
          <span>iodine value</span>
          <Quantity quiet optional label="iodine value, at least" kind="number" placeholder="at least" value={bounds['iodine value']?.least ?? ''} onValue={(value) => bound('iodine value', 'least', value)} />
          <Quantity quiet optional label="iodine value, at most" kind="number" placeholder="at most" value={bounds['iodine value']?.most ?? ''} onValue={(value) => bound('iodine value', 'most', value)} />
        </li>
      </ul>
      <details class="more">
        <summary>Prices and stock</summary>
        <ul class="rows">
          {recipe.fats.map((line) => {
            const price = prices.materials.find((one) => one.material === line.fat);
            return (
              <li key={line.fat} class="bounds">
                <span>{nameOf(line.fat)}</span>
                <Quantity quiet optional label={`Price of a kilogram of ${nameOf(line.fat)}`} kind="number" placeholder={`${prices.currency}/pack`} value={price?.price ?? ''} onValue={(value) => setPrice(line.fat, 'price', value)} />
                <Quantity
                  quiet
                  optional
                  label={`Stock of ${nameOf(line.fat)}`}
                  kind="mass"
                  placeholder="stock"
                  value={stock[line.fat] ?? ''}
                  onValue={(value) => {
                    setFound(undefined);
                    setPapers((old) => set(old, ['stock', line.fat], value));
                  }}
                />
              </li>
            );
          })}
        </ul>
      </details>
      <div class="actions">
        <button type="button" class="go" onClick={search}>
          Search
        </button>
      </div>
      {found && 'words' in found && (
        <div role="status">
          <pre class="words-of-blend">{local(found.words)}</pre>
          {found.found && (
            <button type="button" class="go" onClick={() => use(found.fats)}>
              Use these shares
            </button>
          )}
        </div>
      )}
      {found && !('words' in found) && (
        <ul class="problems">
          {found.map((problem, index) => (
            <li key={index}>
              {sentence(problem.message)} <span class="faint">{sentence(problem.advice)}</span>
            </li>
          ))}
        </ul>
      )}
    </Over>
  );
}
