// The mould, and how large the batch is.
import { useEffect, useRef } from 'preact/hooks';
import type { Recipe } from '../../lamella';
import { free, pointer, set, without, type Path } from '../../change';
import { edit, put, type Look } from '../../store';
import { volume } from '../../units';
import { Choice, Count, Quantity, Text } from '../Field';
import { Cautions } from '../Parts';
import { Surroundings } from '../after/Surroundings';
import { problemAt, setAt, under } from '../places';

const SHAPES = [
  ['loaf', 'loaf, straight walls'],
  ['tapered loaf', 'loaf, sloping walls'],
  ['slab', 'slab with dividers'],
  ['upright cylinder', 'tube that stands'],
  ['lying cylinder', 'tube that lies'],
  ['tray', 'tray of cavities'],
] as const;
type ShapeWord = (typeof SHAPES)[number][0];
const FIELDS: Record<ShapeWord, readonly (readonly [string, string])[]> = {
  loaf: [['length', 'Length'], ['width', 'Width'], ['height', 'Height']],
  'tapered loaf': [['length', 'Length'], ['bottom_width', 'Width below'], ['top_width', 'Width above'], ['height', 'Height']],
  slab: [['length', 'Length'], ['width', 'Width'], ['height', 'Height'], ['divider', 'Divider thickness']],
  'upright cylinder': [['diameter', 'Diameter'], ['height', 'Height']],
  'lying cylinder': [['diameter', 'Diameter'], ['length', 'Length']],
  tray: [],
};
const USUAL: Record<string, string> = {
  length: '250 mm', width: '80 mm', height: '70 mm', bottom_width: '75 mm', top_width: '85 mm', divider: '2 mm', diameter: '75 mm',
};

function newShape(shape: ShapeWord): Record<string, unknown> {
  const out: Record<string, unknown> = { shape };
  for (const [name] of FIELDS[shape]) out[name] = USUAL[name];
  if (shape === 'slab') Object.assign(out, { cells_lengthwise: 4, cells_across: 3 });
  if (shape === 'tray') Object.assign(out, { cavities: 6, cavity: { shape: 'box', length: '80 mm', width: '55 mm', height: '30 mm' } });
  return out;
}

export function Mould({ look, mould, part }: { look: Look; mould: number; part: 'setting' | undefined }) {
  const { recipe, plan } = look;
  const moulds = (recipe.moulds ?? []) as unknown as Record<string, unknown>[];
  const one = moulds[mould];
  const size = (recipe.size ?? {}) as Record<string, unknown>;
  const way = 'moulds' in size ? 'moulds' : 'bars' in size ? 'bars' : 'batter' in size ? 'batter' : 'fat' in size ? 'fat' : 'none';
  const here = ['moulds', mould];
  const setting = useRef<HTMLDetailsElement>(null);
  useEffect(() => {
    if (part !== 'setting') return;
    // After the page has gone to its top for another panel.
    const soon = requestAnimationFrame(() => setting.current?.scrollIntoView({ block: 'start' }));
    return () => cancelAnimationFrame(soon);
  }, [part]);
  return (
    <article class="panel">
      <h2>Mould and size</h2>
      <Cautions list={under(look, '/moulds', '/size')} />
      <Choice
        label="How large the batch is"
        value={way}
        options={[
          ...(moulds.length > 0 ? ([['moulds', 'fills the mould']] as const) : []),
          ['bars', 'so many bars'],
          ['batter', 'so much poured'],
          ['fat', 'so much fat'],
          ...(way === 'none' ? ([['none', 'as the fats or layers say']] as const) : []),
        ]}
        onValue={(to) =>
          edit((now) => {
            const sizes: Record<string, unknown> = {
              moulds: { moulds: 'filled' },
              bars: { bars: 12, each: '110 g' },
              batter: { batter: plan.batch.poured },
              fat: { fat: plan.batch.fat },
            };
            return set(now, ['size'], sizes[to]);
          })
        }
      />
      <div class="grid">
        {way === 'bars' && <Count label="Bars" value={Number(size.bars)} onValue={(value) => setAt(['size', 'bars'], value)} />}
        {way === 'bars' && (
          <Quantity label="Each, fresh" kind="mass" value={String(size.each)} onValue={(value) => setAt(['size', 'each'], value)} problem={problemAt(look, ['size', 'each'])} />
        )}
        {(way === 'batter' || way === 'fat') && (
          <Quantity
            label={way === 'fat' ? 'Fat' : 'Poured'}
            kind="mass"
            value={String(size[way])}
            onValue={(value) => setAt(['size', way], value)}
            problem={look.problems.find((p) => p.pointer.startsWith('/size'))}
          />
        )}
      </div>
      {moulds.length > 1 && (
        <Choice
          label="Shown in the picture"
          value={String(mould)}
          options={moulds.map((each, index) => [String(index), String(each.mould ?? `mould ${index + 1}`)] as const)}
          onValue={(value) => put({ mould: Number(value) })}
        />
      )}
      {one ? (
        <>
          <div class="grid">
            <Text label="Mould" value={String(one.mould ?? 'mould')} onValue={(value) => setAt([...here, 'mould'], value)} />
            <Choice
              label="Shape"
              value={one.shape as ShapeWord}
              options={SHAPES}
              onValue={(shape) => setAt(here, { ...(one.mould ? { mould: one.mould } : {}), ...newShape(shape) })}
            />
            {FIELDS[one.shape as ShapeWord].map(([name, label]) => (
              <Quantity
                key={name}
                label={label}
                kind="length"
                value={String(one[name] ?? '')}
                onValue={(value) => setAt([...here, name], value)}
                problem={look.problems.find((p) => p.pointer === `/moulds/${mould}/${name}`)}
              />
            ))}
            {one.shape === 'slab' && <Count label="Cells along" value={Number(one.cells_lengthwise)} onValue={(value) => setAt([...here, 'cells_lengthwise'], value)} />}
            {one.shape === 'slab' && <Count label="Cells across" value={Number(one.cells_across)} onValue={(value) => setAt([...here, 'cells_across'], value)} />}
            {one.shape === 'tray' && <Count label="Cavities" value={Number(one.cavities)} onValue={(value) => setAt([...here, 'cavities'], value)} />}
            {one.shape === 'tray' && <Cavity look={look} path={[...here, 'cavity']} cavity={one.cavity as Record<string, string>} />}
            <Quantity
              label="Filled up to"
              kind="length"
              optional
              value={String(one.fill ?? '')}
              placeholder="the brim"
              onValue={(value) => setAt([...here, 'fill'], value)}
              problem={problemAt(look, [...here, 'fill'])}
            />
            <Count label="How many of it" value={Number(one.count ?? 1)} onValue={(value) => setAt([...here, 'count'], value)} />
          </div>
          {plan.moulds[mould] && <p class="faint">Takes up {volume(plan.moulds[mould].capacity)} up to there.</p>}
        </>
      ) : (
        <p class="faint">No mould yet: the picture stands by volume.</p>
      )}
      {one && (
        <details class="more" open={part === 'setting'} ref={setting}>
          <summary>Walls, wrapping, room</summary>
          <p class="faint">For the forecast of how warm it gets: the picture, the layers and the waits at the bench use it.</p>
          <Surroundings recipe={recipe} />
        </details>
      )}
      <div class="actions">
        <button
          type="button"
          onClick={() =>
            edit((now) => set(now, ['moulds'], [...(now.moulds ?? []), { mould: free('mould', (now.moulds ?? []).map((m) => m.mould ?? '')), ...newShape('loaf') }] as unknown as Recipe['moulds']))
          }
        >
          Add a mould
        </button>
        {one && (
          <button
            type="button"
            onClick={() =>
              edit((now) => {
                const left = without(now.moulds ?? [], mould);
                let next = set(now, ['moulds'], left.length > 0 ? left : undefined);
                if (left.length === 0 && way === 'moulds') next = set(next, ['size'], { batter: plan.batch.poured });
                return next;
              })
            }
          >
            Take it away
          </button>
        )}
      </div>
    </article>
  );
}

const CAVITIES = {
  box: ['length', 'width', 'height'],
  frustum: ['bottom_length', 'bottom_width', 'top_length', 'top_width', 'height'],
  cone: ['bottom_diameter', 'top_diameter', 'height'],
  bowl: ['radius', 'height'],
} as const;

function Cavity({ look, path, cavity }: { look: Look; path: Path; cavity: Record<string, string> }) {
  const shape = (cavity.shape ?? 'box') as keyof typeof CAVITIES;
  return (
    <>
      <Choice
        label="A cavity is"
        value={shape}
        options={[['box', 'a box'], ['frustum', 'a box with sloping walls'], ['cone', 'round'], ['bowl', 'a half ball']]}
        onValue={(to) => setAt(path, { shape: to, ...Object.fromEntries(CAVITIES[to].map((name) => [name, name === 'height' ? '30 mm' : '60 mm'])) })}
      />
      {CAVITIES[shape].map((name) => (
        <Quantity
          key={name}
          label={name.replace('_', ' ')}
          kind="length"
          value={cavity[name] ?? ''}
          onValue={(value) => setAt([...path, name], value)}
          problem={look.problems.find((one) => one.pointer.startsWith(pointer([...path, name])))}
        />
      ))}
    </>
  );
}
