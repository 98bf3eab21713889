// The lye: its alkali, its water, what stands in for water.
import { useMemo } from 'preact/hooks';
import { set, without } from '../../change';
import { edit, type Look } from '../../store';
import { percent, plain, shownStep, weighed } from '../../units';
import { named, optionsOf } from '../../materials';
import { OfAlkali } from '../certificate/OfAlkali';
import { Doses } from '../Doses';
import { Choice, Quantity, Search, Switch } from '../Field';
import { Cautions, Figure } from '../Parts';
import { problemAt, setAt, under } from '../places';

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
      {recipe.alkali.naoh && <OfAlkali look={look} kind="naoh" />}
      {recipe.alkali.koh && <OfAlkali look={look} kind="koh" />}
      <div class="grid">
        {both && typeof recipe.alkali.koh?.share === 'string' && (
          <Quantity
            label="Of the soap, potassium soap"
            kind="share"
            value={recipe.alkali.koh.share}
            onValue={(value) => setAt(['alkali', 'koh', 'share'], value)}
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
          onValue={(to) => setAt(['water'], { [to]: rounded(to) })}
        />
        <Quantity
          label={{ lye_concentration: 'Strength of the lye', water_to_alkali: 'Water to one of alkali', share_of_fat: 'Water of the fat' }[way]}
          kind={way === 'water_to_alkali' ? 'number' : 'share'}
          value={recipe.water[way] ?? ''}
          onValue={(value) => setAt(['water', way], value)}
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
          onValue={(value) => setAt(['additive_water'], value === 'counts' ? value : undefined)}
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
                onValue={(value) => setAt(['lye', 'liquids', index, 'share'], value)}
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
