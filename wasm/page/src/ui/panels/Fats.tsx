// The fats, their shares, and what the fat is then.
import { useMemo, useState } from 'preact/hooks';
import { addFat, byShare, byWeight, dropFat, fatShare, restFat } from '../../change';
import { edit, type Look } from '../../store';
import { rounded, percent, weighed } from '../../units';
import { named, optionsOf } from '../../materials';
import { CLASSES } from '../../classes';
import { BlendFinder } from '../Blend';
import { Doses } from '../Doses';
import { Choice, Quantity, Search, Switch } from '../Field';
import { By } from '../certificate/By';
import { Known } from '../Known';
import { Cautions, Figure, Pairs } from '../Parts';
import { Safe } from './Superfat';
import { setAt, under } from '../places';

export function Fats({ look }: { look: Look }) {
  const { recipe, plan } = look;
  const [taker, setTaker] = useState(-1);
  const [known, setKnown] = useState(-1);
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
                <button type="button" class="known" onClick={() => setKnown(index)} title="What is known of it, and its certificate">
                  {found?.name ?? line.fat}
                  <span class="beside">{line.certificate?.inci ?? found?.inci}</span>
                  <By line={{ path: ['fats', index], kind: 'fat', id: line.fat }} />
                </button>
                <Quantity
                  quiet
                  label={`Share of ${found?.name ?? line.fat}`}
                  kind={byMass ? 'mass' : 'share'}
                  value={line[field] ?? ''}
                  problem={look.problems.find((one) => one.pointer.startsWith(`/fats/${index}`))}
                  onValue={(value) => {
                    if (value === undefined) return;
                    if (byMass) setAt(['fats', index, 'mass'], value);
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
          onValue={(value) => setAt(excess ? ['superfat', 'fat_excess'] : ['superfat'], value)}
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
            edit((now) => (way === 'mass' ? byWeight(now, plan) : byShare(now, plan)))
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
      <p class="faint">All fat of the batch counts here, that of additives too.</p>
      <Pairs
        list={[
          ...indices.classes.map(
            ({ class: name, share }) => [CLASSES.find(([one]) => one === name)?.[1] ?? name, percent(share)] as const,
          ),
          [
            'iodine value',
            <Figure of="indices">{indices.computed_iodine_value ? rounded(indices.computed_iodine_value, 1) : '–'}</Figure>,
          ],
          ['saponification value used', rounded(indices.saponification_value, 1)],
        ]}
      />
      {recipe.fats[known] && (
        <Known
          kind="fat"
          id={recipe.fats[known].fat}
          line={{ path: ['fats', known], kind: 'fat', id: recipe.fats[known].fat }}
          onClose={() => setKnown(-1)}
        />
      )}
    </article>
  );
}
