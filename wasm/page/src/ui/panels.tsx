// What is looked at: a layer, the fats, the lye, the mould, the workshop, the batch.
import { useMemo, useState } from 'preact/hooks';
import { material, materials } from '../lamella';
import { safeOf } from '../worker';
import type { Advice, Listed, ListedKind, Recipe } from '../lamella';
import {
  addFat,
  at,
  dropFat,
  fatShare,
  free,
  home,
  moved,
  pointer,
  restFat,
  set,
  shareJug,
  useJug,
  without,
  type Path,
} from '../change';
import { edit, put, useCertainty, useWarm, type Look } from '../store';
import { fieldUnit, length, local, mass, percent, plain, shownStep, temperature, volume, weighed, when } from '../units';
import { BlendFinder } from './Blend';
import { Cautions, Figure, Over, Sources } from './Parts';
import { Choice, Quantity, Search, Swatch, Switch, Text, type Option } from './Field';

/** The first problem of a place, or of what is below it. */
export const problemAt = (look: Look, path: Path) => look.problems.find((one) => one.pointer === pointer(path));
const put1 = (path: Path, value: unknown, notice = '') => edit((recipe) => set(recipe, path, value), notice);
const under = (look: Look, ...places: string[]) =>
  look.plan.cautions.filter((caution) =>
    places.some((place) => caution.pointer === place || caution.pointer.startsWith(`${place}/`)),
  );

const GROUPS: Record<ListedKind, string> = {
  fat: 'fat',
  additive: 'additive',
  liquid: 'liquid',
  colour: 'colour',
  scent: 'scent',
};
let list: Listed[] | undefined;
const all = (): Listed[] => (list ??= materials());
const option = (one: Listed): Option => ({
  key: `${one.kind} ${one.id}`,
  name: one.name,
  beside: one.inci ?? undefined,
  group: GROUPS[one.kind],
  swatch: one.swatch ?? undefined,
});
const optionsOf = (kinds: readonly ListedKind[]): Option[] =>
  all()
    .filter((one) => kinds.includes(one.kind))
    .map(option);
const named = (kind: readonly ListedKind[], id: string): Listed | undefined =>
  all().find((one) => one.id === id && kind.includes(one.kind));

/** A material, and whose numbers it has. */
export function Known({ kind, id, onClose }: { kind: ListedKind; id: string; onClose: () => void }) {
  const found = material(kind, id);
  if (!found) return null;
  const range = (value: { min: string | null; typical: string; max: string | null } | null | undefined) =>
    !value ? '' : value.min && value.max ? `${value.typical} (${value.min} to ${value.max})` : value.typical;
  const pairs: [string, string][] = [];
  if ('saponification_value' in found) {
    pairs.push(['saponification value', range(found.saponification_value)]);
    pairs.push(['iodine value', range(found.iodine_value)]);
    if (found.density) pairs.push([`density at ${found.density.at}`, found.density.typical]);
    if (found.unsaponifiable_max) pairs.push(['unsaponifiable at most', found.unsaponifiable_max]);
    if (found.inci.fat) pairs.push(['INCI', found.inci.fat]);
    if (found.inci.sodium_soap) pairs.push(['INCI of its sodium soap', found.inci.sodium_soap]);
    for (const acid of found.profile) pairs.push([String(acid.acid), range(acid.share)]);
  }
  if ('composition' in found) {
    for (const [part, share] of Object.entries(found.composition)) if (share !== '0 %') pairs.push([part, String(share)]);
    if (found.fat_like) pairs.push(['its fat is like', found.fat_like]);
    if (found.allergen) pairs.push(['allergen', found.allergen]);
  }
  if ('usual_max' in found) pairs.push(['usual at most', found.usual_max]);
  return (
    <Over title={found.name} onClose={onClose}>
      {found.note && <p>{found.note}</p>}
      <dl class="pairs">
        {pairs
          .filter(([, value]) => value)
          .map(([name, value], index) => (
            <div key={index}>
              <dt>{name}</dt>
              <dd>{local(value)}</dd>
            </div>
          ))}
      </dl>
      <h3>Whose numbers these are</h3>
      <Sources sources={found.bases} />
    </Over>
  );
}

type DoseList = 'doses' | 'colours' | 'scents';
type AnyDose = Record<string, unknown> & { dose: string; of?: string; treatment?: string; name?: string };

/** The id that a dose names, and what kind of thing that is. */
function idOf(dose: AnyDose): { id: string; kinds: readonly ListedKind[] } {
  if (typeof dose.fat === 'string') return { id: dose.fat, kinds: ['fat'] };
  if (typeof dose.colour === 'string') return { id: dose.colour, kinds: ['colour'] };
  if (typeof dose.scent === 'string') return { id: dose.scent, kinds: ['scent'] };
  return { id: String(dose.additive ?? ''), kinds: ['additive', 'liquid'] };
}

interface DosesProps {
  look: Look;
  /** What has the lists: a layer, a jug, the lye, the recipe itself. */
  path: Path;
  /** Whether it is the pot or the lye, where shares are of the batch's fat. */
  batch?: boolean;
  lists?: readonly DoseList[];
  add: string;
}

const START: Record<DoseList, string> = { doses: '3 %', colours: '0.2 %', scents: '2 %' };

/** Additives, colours and scents of one place. */
export function Doses({ look, path, batch, lists = ['doses', 'colours', 'scents'], add }: DosesProps) {
  const [known, setKnown] = useState<{ kind: ListedKind; id: string } | undefined>();
  const kinds: ListedKind[] = [];
  if (lists.includes('doses')) kinds.push('additive', 'liquid', 'fat');
  if (lists.includes('colours')) kinds.push('colour');
  if (lists.includes('scents')) kinds.push('scent');
  const options = useMemo(() => optionsOf(kinds), [kinds.join()]);
  const { recipe, plan } = look;
  const items = [
    ...plan.pot.doses,
    ...plan.lye.doses,
    ...plan.jugs.flatMap((jug) => [...jug.doses, ...jug.late_doses]),
  ];
  const rows = lists.flatMap((name) =>
    ((at(recipe, [...path, name]) as AnyDose[] | undefined) ?? []).map((dose, index) => ({ name, dose, index })),
  );
  const pick = (picked: Option) => {
    const [kind, ...id] = picked.key.split(' ');
    const name = (kind === 'colour' ? 'colours' : kind === 'scent' ? 'scents' : 'doses') as DoseList;
    const key = kind === 'liquid' || kind === 'own' ? 'additive' : kind!;
    const dose: AnyDose = { [key]: id.join(' '), dose: START[name] };
    if (kind === 'own') {
      dose.name = picked.name.replace(/^Your own: /, '');
      dose.composition = { water: '0 %' };
    }
    edit((now) => set(now, [...path, name], [...((at(now, [...path, name]) as AnyDose[]) ?? []), dose]));
  };
  return (
    <section class="doses">
      {rows.length > 0 && (
        <ul class="rows">
          {rows.map(({ name, dose, index }) => {
            const here = [...path, name, index];
            const { id, kinds: which } = idOf(dose);
            const found = named(which, id);
            const item = items.find((one) => one.pointer === pointer(here));
            const share = fieldUnit('dose', dose.dose) === '%';
            const wrong = look.problems.find((one) => one.pointer.startsWith(pointer(here)));
            return (
              <li key={`${name}${index}${id}`}>
                <div class="row">
                  <button
                    type="button"
                    class="known"
                    disabled={!found}
                    onClick={() => found && setKnown({ kind: found.kind, id })}
                    title="What is known of it"
                  >
                    {found?.swatch && <Swatch colour={found.swatch} />}
                    {found?.name ?? dose.name ?? id}
                  </button>
                  <Quantity
                    quiet
                    label={`Dose of ${found?.name ?? id}`}
                    kind="dose"
                    value={dose.dose}
                    onValue={(value) => put1([...here, 'dose'], value)}
                    problem={wrong}
                  />
                  <span class="grams">
                    {item ? weighed(item.weighed, plan.scales[item.scale]!.step) : ''}
                  </span>
                  <button
                    type="button"
                    class="drop"
                    aria-label={`Leave out ${found?.name ?? id}`}
                    onClick={() =>
                      edit(
                        (now) => {
                          const left = without(at(now, [...path, name]) as AnyDose[], index);
                          return set(now, [...path, name], left.length > 0 ? left : undefined);
                        },
                        `${found?.name ?? id} left out.`,
                      )
                    }
                  >
                    ×
                  </button>
                </div>
                <div class="row under">
                  {!batch && (
                    <Choice
                      quiet
                      label="Dose of what"
                      value={share ? (dose.of ?? 'layer fat') : 'mass'}
                      options={[
                        ['layer fat', 'of the layer’s fat'],
                        ['layer', 'of the layer'],
                        ['batch fat', 'of all the fat'],
                        ['batch', 'of the whole batch'],
                        ['mass', 'by weight'],
                      ]}
                      onValue={(of) =>
                        edit((now) => {
                          const weigh = of === 'mass';
                          const unit = weigh ? (item?.weighed ?? '10 g') : share ? dose.dose : '3 %';
                          let next = set(now, [...here, 'dose'], unit);
                          next = set(next, [...here, 'of'], weigh || of === 'layer fat' ? undefined : of);
                          return of === 'layer' || of === 'batch' ? set(next, [...here, 'treatment'], undefined) : next;
                        })
                      }
                    />
                  )}
                  {name === 'doses' && !(dose.of === 'layer' || dose.of === 'batch') && (
                    <Choice
                      quiet
                      label="Lye for it"
                      value={(dose.treatment ?? 'absorb') as 'absorb' | 'balance'}
                      options={[
                        ['absorb', 'lye unchanged, superfat moves'],
                        ['balance', 'lye follows, superfat kept'],
                      ]}
                      onValue={(value) => put1([...here, 'treatment'], value === 'balance' ? value : undefined)}
                    />
                  )}
                </div>
                {!found && name === 'doses' && <Own path={here} look={look} dose={dose} />}
                <Cautions list={under(look, pointer(here))} />
              </li>
            );
          })}
        </ul>
      )}
      <Search
        label={add}
        options={options}
        onPick={pick}
        own={
          lists.includes('doses')
            ? (text) => ({ key: `own ${slug(text)}`, name: `Your own: ${text}`, group: 'say what is in it' })
            : undefined
        }
      />
      {known && <Known {...known} onClose={() => setKnown(undefined)} />}
    </section>
  );
}

const slug = (text: string) =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60) || 'own';

const OWN = ['water', 'fat', 'sugars', 'protein', 'fibre', 'minerals'] as const;

/** What a material of one's own is made of. */
function Own({ path, look, dose }: { path: Path; look: Look; dose: AnyDose }) {
  const composition = (dose.composition ?? {}) as Record<string, string>;
  const fats = optionsOf(['fat']);
  return (
    <fieldset class="own">
      <legend>What is in it, of 100 g (the label says)</legend>
      <div class="grid">
        {OWN.map((part) => (
          <Quantity
            key={part}
            label={part}
            kind="share"
            optional
            value={composition[part] ?? ''}
            onValue={(value) => put1([...path, 'composition', part], value)}
            problem={problemAt(look, [...path, 'composition', part])}
          />
        ))}
        {composition.fat && composition.fat !== '0 %' && (
          <Choice
            label="its fat is like"
            value={composition.fat_like ?? ''}
            options={[['', 'choose'], ...fats.map((fat) => [fat.key.slice(4), fat.name] as const)]}
            onValue={(value) => put1([...path, 'composition', 'fat_like'], value || undefined)}
          />
        )}
      </div>
    </fieldset>
  );
}

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
            {plain2(jug.density)}
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
          onValue={(value) => put1([...here, 'share'], value)}
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
  const warm = useWarm(look.recipe);
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

const VERDICTS: Record<string, string> = {
  'fat-left': 'It cannot be lye-heavy.',
  'may-be-lye-heavy': 'It may be lye-heavy.',
  'lye-heavy': 'It is lye-heavy.',
};

/** How sure the superfat of a jug is, and what that comes from. */
function Sure({ look, jug }: { look: Look; jug: number }) {
  const sure = useCertainty(look.recipe);
  const figures = sure?.jugs[jug]?.figures;
  if (!sure || !figures) return <p class="faint sure">How sure that is, follows.</p>;
  const heavy = figures.verdict !== 'fat-left';
  return (
    <details class={heavy ? 'sure heavy' : 'sure'}>
      <summary>
        Superfat between {percent(figures.guaranteed.low)} and {percent(figures.guaranteed.high)}, whatever fats, alkali and
        scales are within their ranges. <b>{VERDICTS[figures.verdict]}</b>
      </summary>
      <p>
        Usually, 95 times in 100, between {percent(figures.covered[0])} and {percent(figures.covered[1])}. Most of that comes
        from:
      </p>
      <ul>
        {figures.budget.slice(0, 4).map((part) => (
          <li key={part.input}>
            {sure.inputs[part.input]?.name}: {percent(part.of_variance, 0)} of the variance
          </li>
        ))}
      </ul>
    </details>
  );
}

const plain2 = (density: string) => local(density.replace(/(\.\d{3})\d*/, '$1'));

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

/** A figure with one decimal, as text. */
const short = (text: string) => local(text.replace(/(\.\d)\d*/, '$1'));

const CLASSES: Record<string, string> = {
  'short-saturated': 'short saturated, C8–C10',
  'lauric-myristic': 'lauric and myristic, C12–C14',
  'palmitic-stearic': 'palmitic and stearic, saturated from C15',
  'mono-unsaturated': 'mono-unsaturated',
  'poly-unsaturated': 'poly-unsaturated',
  hydroxy: 'hydroxy',
};

export function Fats({ look }: { look: Look }) {
  const { recipe, plan } = look;
  const [taker, setTaker] = useState(-1);
  const [known, setKnown] = useState('');
  const [finding, setFinding] = useState(false);
  const byMass = recipe.fats.some((line) => line.mass !== undefined);
  const takes = restFat(recipe, -1, taker);
  const options = useMemo(() => optionsOf(['fat']), []);
  const items = [...plan.pot.fats, ...plan.jugs.flatMap((jug) => jug.held)];
  const sum = look.problems.find((one) => one.code === 'fat.shares.sum');
  const excess = typeof recipe.superfat !== 'string';
  const indices = plan.batch.indices;
  return (
    <article class="panel">
      <h2>The fats</h2>
      <Cautions list={under(look, '/fats')} />
      <ul class="rows">
        {recipe.fats.map((line, index) => {
          const found = named(['fat'], line.fat);
          const item = items.find((one) => one.pointer === `/fats/${index}`);
          const field = byMass ? 'mass' : 'share';
          return (
            <li key={line.fat}>
              <div class="row">
                <button type="button" class="known" onClick={() => setKnown(line.fat)} title="What is known of it">
                  {found?.name ?? line.fat}
                  <span class="beside">{found?.inci}</span>
                </button>
                <Quantity
                  quiet
                  label={`Share of ${found?.name ?? line.fat}`}
                  kind={byMass ? 'mass' : 'share'}
                  value={line[field] ?? ''}
                  problem={look.problems.find((one) => one.pointer.startsWith(`/fats/${index}`))}
                  onValue={(value) => {
                    if (value === undefined) return;
                    if (byMass) put1(['fats', index, 'mass'], value);
                    else edit((now) => fatShare(now, index, value, taker));
                  }}
                />
                <span class="grams">
                  {item && <Figure of={`fat/${index}`}>{weighed(item.weighed, plan.scales[item.scale]!.step)}</Figure>}
                </span>
                <button
                  type="button"
                  class="drop"
                  disabled={recipe.fats.length === 1}
                  aria-label={`Leave out ${found?.name ?? line.fat}`}
                  onClick={() => edit((now) => dropFat(now, index), `${found?.name ?? line.fat} left out.`)}
                >
                  ×
                </button>
              </div>
            </li>
          );
        })}
      </ul>
      {!byMass && recipe.fats.length > 1 && (
        <Choice
          label="Takes up what the others leave of 100 %"
          value={String(takes)}
          options={recipe.fats.map((line, index) => [String(index), named(['fat'], line.fat)?.name ?? line.fat] as const)}
          onValue={(value) => setTaker(Number(value))}
        />
      )}
      {sum && (
        <p class="told" role="status">
          {sum.message}; {sum.advice}
        </p>
      )}
      <Search label="Add a fat" options={options} onPick={(picked) => edit((now) => addFat(now, picked.key.slice(4), '5 %'))} />
      <div class="grid">
        <Quantity
          label={excess ? 'Fat beyond what the lye meets' : 'Superfat'}
          kind="share"
          value={excess ? (recipe.superfat as { fat_excess: string }).fat_excess : (recipe.superfat as string)}
          onValue={(value) => put1(excess ? ['superfat', 'fat_excess'] : ['superfat'], value)}
          problem={look.problems.find((one) => one.pointer.startsWith('/superfat'))}
          hint="share of the alkali demand left unmet"
        />
        <Switch
          label="Fats are stated"
          value={byMass ? 'mass' : 'share'}
          options={[
            ['share', 'in per cent'],
            ['mass', 'by weight'],
          ]}
          onValue={(way) =>
            edit((now) => {
              if (way === 'mass') {
                const fats = now.fats.map((line, index) => {
                  const item = items.find((one) => one.pointer === `/fats/${index}`);
                  return { ...line, share: undefined, mass: item?.weighed ?? '100 g' };
                });
                return set(set(now, ['fats'], JSON.parse(JSON.stringify(fats))), ['size'], undefined);
              }
              const fats = now.fats.map((line) => ({ ...line, mass: undefined, share: line.share ?? '1 %' }));
              const next = set(now, ['fats'], JSON.parse(JSON.stringify(fats)) as Recipe['fats']);
              const evened = dropFat({ ...next, fats: [...next.fats, { fat: '', share: '0 %' }] }, next.fats.length);
              return set(evened, ['size'], { fat: plan.batch.fat });
            })
          }
        />
      </div>
      <div class="actions">
        <button type="button" onClick={() => setFinding(true)}>
          Find shares for what the fat must be
        </button>
      </div>
      {finding && <BlendFinder look={look} onClose={() => setFinding(false)} />}
      <Safe look={look} />
      <details class="more">
        <summary>Stirred into all the fat, before it is divided</summary>
        <Doses look={look} path={[]} batch add="Add to the pot" />
      </details>
      <h3>What this fat is</h3>
      <dl class="pairs">
        {indices.classes.map(({ class: name, share }) => (
          <div key={name}>
            <dt>{CLASSES[name] ?? name}</dt>
            <dd>{percent(share)}</dd>
          </div>
        ))}
        <div>
          <dt>iodine value</dt>
          <dd>
            <Figure of="indices">{indices.computed_iodine_value ? short(indices.computed_iodine_value) : '–'}</Figure>
          </dd>
        </div>
        <div>
          <dt>saponification value used</dt>
          <dd>{short(indices.saponification_value)}</dd>
        </div>
      </dl>
      {known && <Known kind="fat" id={known} onClose={() => setKnown('')} />}
    </article>
  );
}

/** The superfat to aim for, so that no layer can be lye-heavy; reckoned when it is asked for. */
function Safe({ look }: { look: Look }) {
  const [found, setFound] = useState<{ recipe: Recipe; advice: Advice } | undefined>();
  const { recipe } = look;
  const known = found?.recipe === recipe ? found.advice : undefined;
  if (!known) {
    return (
      <div class="actions">
        <button type="button" onClick={() => void safeOf(recipe).then((advice) => advice && setFound({ recipe, advice }))}>
          Which superfat is on the safe side?
        </button>
      </div>
    );
  }
  const aim = known.superfat;
  if (!aim) return <p class="told">No superfat up to 50 % keeps every layer from being lye-heavy.</p>;
  return (
    <div class="actions">
      <p class="faint">
        From {percent(aim.superfat)} on no layer can be lye-heavy; {aim.binding} comes nearest then.
        {known.scale && ` As it stands, a scale of ${local(known.scale.step)} is the coarsest that does.`}
      </p>
      <button type="button" onClick={() => put1(['superfat'], aim.superfat)}>
        Aim for {percent(aim.superfat)}
      </button>
    </div>
  );
}

type WaterWay = 'lye_concentration' | 'water_to_alkali' | 'share_of_fat';

export function Lye({ look }: { look: Look }) {
  const { recipe, plan } = look;
  const figures = plan.lye.figures;
  const way = (['lye_concentration', 'water_to_alkali', 'share_of_fat'] as const).find((one) => recipe.water[one] !== undefined) ?? 'lye_concentration';
  const liquids = useMemo(() => optionsOf(['liquid']), []);
  const both = recipe.alkali.naoh && recipe.alkali.koh;
  const kind = both ? 'both' : recipe.alkali.koh ? 'koh' : 'naoh';
  const now: Record<WaterWay, string> = {
    lye_concentration: figures.concentration,
    water_to_alkali: figures.water_to_alkali,
    share_of_fat: figures.water_of_fat,
  };
  const rounded = (to: WaterWay) => shownStep(now[to], to === 'water_to_alkali');
  return (
    <article class="panel">
      <h2>The lye</h2>
      <div class="figures">
        <Figure of="alkali" name={plan.lye.alkalis.map((item) => item.name).join(' and ')}>
          {plan.lye.alkalis.map((item) => weighed(item.weighed, plan.scales[item.scale]!.step)).join(' + ')}
        </Figure>
        <Figure of="water" name="water">
          {weighed(plan.lye.water.weighed, plan.scales[plan.lye.water.scale]!.step)}
        </Figure>
        <Figure of="concentration" name="is lye of">
          {percent(figures.concentration)}
        </Figure>
      </div>
      <Cautions list={under(look, '/water', '/lye', '/alkali')} />
      <Switch
        label="Alkali"
        value={kind}
        options={[
          ['naoh', 'sodium hydroxide'],
          ['koh', 'potassium hydroxide'],
          ['both', 'both'],
        ]}
        onValue={(to) =>
          edit((old) => {
            const naoh = old.alkali.naoh ?? {};
            const koh = { ...(old.alkali.koh ?? {}) };
            delete koh.share;
            return set(old, ['alkali'], to === 'naoh' ? { naoh } : to === 'koh' ? { koh } : { naoh, koh: { ...koh, share: '5 %' } });
          })
        }
      />
      <div class="grid">
        {recipe.alkali.naoh && (
          <Quantity
            label="Sodium hydroxide is pure to"
            kind="share"
            optional
            value={recipe.alkali.naoh.purity ?? ''}
            placeholder="98"
            onValue={(value) => put1(['alkali', 'naoh', 'purity'], value)}
            problem={problemAt(look, ['alkali', 'naoh', 'purity'])}
          />
        )}
        {recipe.alkali.koh && (
          <Quantity
            label="Potassium hydroxide is pure to"
            kind="share"
            optional
            value={recipe.alkali.koh.purity ?? ''}
            placeholder="90"
            onValue={(value) => put1(['alkali', 'koh', 'purity'], value)}
            problem={problemAt(look, ['alkali', 'koh', 'purity'])}
          />
        )}
        {both && typeof recipe.alkali.koh?.share === 'string' && (
          <Quantity
            label="Of the soap, potassium soap"
            kind="share"
            value={recipe.alkali.koh.share}
            onValue={(value) => put1(['alkali', 'koh', 'share'], value)}
            problem={problemAt(look, ['alkali', 'koh', 'share'])}
          />
        )}
      </div>
      <div class="grid">
        <Choice
          label="Water is stated as"
          value={way}
          options={[
            ['lye_concentration', 'strength of the lye'],
            ['water_to_alkali', 'water to one of alkali'],
            ['share_of_fat', 'share of the fat'],
          ]}
          onValue={(to) => put1(['water'], { [to]: rounded(to) })}
        />
        <Quantity
          label={{ lye_concentration: 'Strength of the lye', water_to_alkali: 'Water to one of alkali', share_of_fat: 'Water of the fat' }[way]}
          kind={way === 'water_to_alkali' ? 'number' : 'share'}
          value={recipe.water[way] ?? ''}
          onValue={(value) => put1(['water', way], value)}
          problem={look.problems.find((one) => one.pointer.startsWith('/water'))}
          hint={`${percent(figures.concentration)} lye · ${plain(figures.water_to_alkali, 2)} to one · ${percent(figures.water_of_fat)} of the fat`}
        />
        <Choice
          label="Water that additives bring"
          value={recipe.additive_water ?? 'extra'}
          options={[
            ['extra', 'comes on top'],
            ['counts', 'counts: less in the lye'],
          ]}
          onValue={(value) => put1(['additive_water'], value === 'counts' ? value : undefined)}
        />
      </div>
      <h3>In place of water</h3>
      <ul class="rows">
        {(recipe.lye?.liquids ?? []).map((line, index) => (
          <li key={line.liquid}>
            <div class="row">
              <span class="known">{named(['liquid'], line.liquid)?.name ?? line.liquid}</span>
              <Quantity
                quiet
                label={`Share of ${line.liquid}`}
                kind="share"
                value={line.share}
                onValue={(value) => put1(['lye', 'liquids', index, 'share'], value)}
                problem={look.problems.find((one) => one.pointer.startsWith(`/lye/liquids/${index}`))}
              />
              <span class="grams">
                {plan.lye.liquids[index] &&
                  weighed(plan.lye.liquids[index].weighed, plan.scales[plan.lye.liquids[index].scale]!.step)}
              </span>
              <button
                type="button"
                class="drop"
                aria-label={`Leave out ${line.liquid}`}
                onClick={() => edit((old) => set(old, ['lye', 'liquids'], without(old.lye?.liquids ?? [], index)))}
              >
                ×
              </button>
            </div>
          </li>
        ))}
      </ul>
      <Search
        label="Add milk, tea, juice …"
        options={liquids}
        onPick={(picked) =>
          edit((old) =>
            set(old, ['lye', 'liquids'], [...(old.lye?.liquids ?? []), { liquid: picked.key.slice(7), share: '30 %' }]),
          )
        }
      />
      <h3>Dissolved in it</h3>
      <Doses look={look} path={['lye']} batch lists={['doses']} add="Add to the lye" />
    </article>
  );
}

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

export function Mould({ look, mould }: { look: Look; mould: number }) {
  const { recipe, plan } = look;
  const moulds = (recipe.moulds ?? []) as unknown as Record<string, unknown>[];
  const one = moulds[mould];
  const size = (recipe.size ?? {}) as Record<string, unknown>;
  const way = 'moulds' in size ? 'moulds' : 'bars' in size ? 'bars' : 'batter' in size ? 'batter' : 'fat' in size ? 'fat' : 'none';
  const here = ['moulds', mould];
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
        {way === 'bars' && <Count label="Bars" path={['size', 'bars']} value={Number(size.bars)} />}
        {way === 'bars' && (
          <Quantity label="Each, fresh" kind="mass" value={String(size.each)} onValue={(value) => put1(['size', 'each'], value)} problem={problemAt(look, ['size', 'each'])} />
        )}
        {(way === 'batter' || way === 'fat') && (
          <Quantity
            label={way === 'fat' ? 'Fat' : 'Poured'}
            kind="mass"
            value={String(size[way])}
            onValue={(value) => put1(['size', way], value)}
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
            <Text label="Mould" value={String(one.mould ?? 'mould')} onValue={(value) => put1([...here, 'mould'], value)} />
            <Choice
              label="Shape"
              value={one.shape as ShapeWord}
              options={SHAPES}
              onValue={(shape) => put1(here, { ...(one.mould ? { mould: one.mould } : {}), ...newShape(shape) })}
            />
            {FIELDS[one.shape as ShapeWord].map(([name, label]) => (
              <Quantity
                key={name}
                label={label}
                kind="length"
                value={String(one[name] ?? '')}
                onValue={(value) => put1([...here, name], value)}
                problem={look.problems.find((p) => p.pointer === `/moulds/${mould}/${name}`)}
              />
            ))}
            {one.shape === 'slab' && <Count label="Cells along" path={[...here, 'cells_lengthwise']} value={Number(one.cells_lengthwise)} />}
            {one.shape === 'slab' && <Count label="Cells across" path={[...here, 'cells_across']} value={Number(one.cells_across)} />}
            {one.shape === 'tray' && <Count label="Cavities" path={[...here, 'cavities']} value={Number(one.cavities)} />}
            {one.shape === 'tray' && <Cavity look={look} path={[...here, 'cavity']} cavity={one.cavity as Record<string, string>} />}
            <Quantity
              label="Filled up to"
              kind="length"
              optional
              value={String(one.fill ?? '')}
              placeholder="the brim"
              onValue={(value) => put1([...here, 'fill'], value)}
              problem={problemAt(look, [...here, 'fill'])}
            />
            <Count label="How many of it" path={[...here, 'count']} value={Number(one.count ?? 1)} />
          </div>
          {plan.moulds[mould] && <p class="faint">Takes up {volume(plan.moulds[mould].capacity)} up to there.</p>}
        </>
      ) : (
        <p class="faint">No mould yet: the picture stands by volume.</p>
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
        onValue={(to) => put1(path, { shape: to, ...Object.fromEntries(CAVITIES[to].map((name) => [name, name === 'height' ? '30 mm' : '60 mm'])) })}
      />
      {CAVITIES[shape].map((name) => (
        <Quantity
          key={name}
          label={name.replace('_', ' ')}
          kind="length"
          value={cavity[name] ?? ''}
          onValue={(value) => put1([...path, name], value)}
          problem={look.problems.find((one) => one.pointer.startsWith(pointer([...path, name])))}
        />
      ))}
    </>
  );
}

function Count({ label, path, value }: { label: string; path: Path; value: number }) {
  return (
    <div class="field">
      <label>
        {label}
        <input
          type="number"
          min={1}
          max={10000}
          step={1}
          value={value}
          onInput={(event) => {
            const typed = Number(event.currentTarget.value);
            if (Number.isInteger(typed) && typed >= 1) put1(path, typed);
          }}
        />
      </label>
    </div>
  );
}

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
            onValue={(value) => put1(['workshop', name], value)}
            problem={problemAt(look, ['workshop', name])}
          />
        ))}
      </div>
      <h3>Temperatures at mixing</h3>
      <div class="grid">
        <Quantity label="Fats" kind="temperature" value={recipe.temperatures?.fats ?? plan.temperatures.fats} onValue={(value) => put1(['temperatures', 'fats'], value)} problem={problemAt(look, ['temperatures', 'fats'])} />
        <Quantity label="Lye" kind="temperature" value={recipe.temperatures?.lye ?? plan.temperatures.lye} onValue={(value) => put1(['temperatures', 'lye'], value)} problem={problemAt(look, ['temperatures', 'lye'])} />
      </div>
      <p class="faint">Planned at {temperature(plan.temperatures.fats)} and {temperature(plan.temperatures.lye)}.</p>
    </article>
  );
}

export function Batch({ look }: { look: Look }) {
  const { recipe, plan } = look;
  return (
    <article class="panel">
      <Text class="title" quiet label="Name of the recipe" value={recipe.name} onValue={(value) => put1(['name'], value)} problem={problemAt(look, ['name'])} />
      <Text label="Note" long value={recipe.note ?? ''} onValue={(value) => put1(['note'], value || undefined)} />
      <div class="grid">
        <Switch
          label="It is for"
          value={recipe.for ?? 'household'}
          options={[['household', 'the household'], ['sale', 'sale']]}
          onValue={(value) => put1(['for'], value)}
        />
        <Switch
          label="Process"
          value={recipe.process ?? 'cold'}
          options={[['cold', 'cold'], ['hot', 'hot']]}
          onValue={(value) => put1(['process'], value)}
        />
        <Quantity label="Water left in the cured bar" kind="share" optional placeholder="12" value={recipe.cured_water ?? ''} onValue={(value) => put1(['cured_water'], value)} problem={problemAt(look, ['cured_water'])} />
      </div>
      <Cautions list={plan.cautions.filter((one) => one.pointer === '' || one.pointer === '/for')} />
      <h3>All that deserves a second look</h3>
      <Cautions placed list={plan.cautions} />
      <p class="faint">{mass(plan.batch.weighed_in, 2)} weighed in, {mass(plan.batch.left, 2)} left behind.</p>
    </article>
  );
}
