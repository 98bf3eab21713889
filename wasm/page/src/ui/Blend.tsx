// A blend that meets what is asked of it: the library searches, the maker decides.
import { useEffect, useRef, useState } from 'preact/hooks';
import { blend, LamellaError, type Blend as Asked, type BlendBlendDemand, type FoundBlend, type Problem, type RecipeFat } from '../lamella';
import { blended, byWeight, set, sharesOfFats } from '../change';
import { edit, isLook, lookAt, papers, type Look } from '../store';
import { local } from '../units';
import { blocksOf } from '../markdown';
import { CLASSES, type ClassName } from '../classes';
import { BlendFats } from './BlendFats';
import { Choice, Quantity } from './Field';
import { Blocks, Over, Problems } from './Parts';

type Bounds = Record<string, { least?: string; most?: string }>;
type Aim = 'nearest usual' | 'cheapest' | 'fewest fats';

/** Looks for shares of the fats that are there, and of those that the maker adds to choose from. */
export function BlendFinder({ look, onClose }: { look: Look; onClose: () => void }) {
  const { recipe, plan } = look;
  const { prices, stock } = papers();
  const [bounds, setBounds] = useState<Bounds>({});
  const [more, setMore] = useState<string[]>([]);
  const candidates: RecipeFat[] = [...recipe.fats, ...more.map((fat) => ({ fat }))];
  const byMass = recipe.fats.some((line) => line.mass !== undefined);
  const [aim, setAim] = useState<Aim>('nearest usual');
  const shares = sharesOfFats(recipe.fats);
  const [found, setFound] = useState<FoundBlend | readonly Problem[] | undefined>();
  const answer = useRef<HTMLDivElement>(null);
  useEffect(() => answer.current?.scrollIntoView({ block: 'nearest' }), [found]);
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
      fats: candidates.map((line, index) => {
        const price = prices.materials.find((one) => one.material === line.fat);
        return {
          fat: line.fat,
          ...(shares?.[index] === undefined ? {} : { usual: shares[index] }),
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
    edit((now) => {
      const next = blended(now, lines);
      if (!byMass) return next;
      // Fats by weight stay by weight, and the batch as large as it was.
      const sized = set(next, ['size'], { fat: plan.batch.fat });
      const found = lookAt(sized, 0);
      return isLook(found) ? byWeight(sized, found.plan) : sized;
    }, 'The fats are those of the blend.');
    onClose();
  };
  return (
    <Over title="Find shares" onClose={onClose}>
      <p class="faint">Shares in whole per cent that meet what is asked below.</p>
      <BlendFats
        own={recipe.fats.map((line) => line.fat)}
        more={more}
        onMore={(fats) => {
          setMore(fats);
          setFound(undefined);
        }}
        onChange={() => setFound(undefined)}
      />
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
      <div class="actions">
        <button type="button" class="go" onClick={search}>
          Search
        </button>
      </div>
      {found && 'words' in found && (
        <div role="status" ref={answer}>
          <div class="words-of-blend">
            <Blocks blocks={blocksOf(local(found.words)).filter((block) => block.is !== 'title')} />
          </div>
          {found.found && (
            <button type="button" class="go" onClick={() => use(found.fats)}>
              Use these shares
            </button>
          )}
        </div>
      )}
      {found && !('words' in found) && <Problems list={found} />}
    </Over>
  );
}
