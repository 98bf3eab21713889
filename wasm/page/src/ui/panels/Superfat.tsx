// How sure a superfat is, and which one is on the safe side.
import { useState } from 'preact/hooks';
import type { Advice, Recipe } from '../../lamella';
import { safeOf } from '../../worker';
import { levelOf, usual } from '../../certain';
import { useCertainty, type Look } from '../../store';
import { local, percent } from '../../units';
import { setAt } from '../places';

const VERDICTS: Record<string, string> = {
  'fat-left': 'It cannot be lye-heavy.',
  'may-be-lye-heavy': 'It may be lye-heavy.',
  'lye-heavy': 'It is lye-heavy.',
};

/** How sure the superfat of a jug is, and what that comes from. */
export function Sure({ look, jug }: { look: Look; jug: number }) {
  const sure = useCertainty(look.recipe);
  const figures = sure?.jugs[jug]?.figures;
  if (!sure || !figures) return <p class="faint sure">How sure that is, follows.</p>;
  const level = levelOf(figures);
  return (
    <details class={`sure ${level}`}>
      <summary>
        Superfat between {percent(figures.guaranteed.low)} and {percent(figures.guaranteed.high)}, whatever fats, alkali and
        scales are within their ranges. <b>{level === 'may-be' && !usual(figures) ? 'At the worst it may be lye-heavy.' : VERDICTS[figures.verdict]}</b>
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

/** What is meant where a superfat may be lye-heavy, and what helps; where such a figure is first seen. */
export function MayBe({ look }: { look: Look }) {
  const sure = useCertainty(look.recipe);
  if (!sure) return null;
  const may = sure.jugs.filter((jug) => levelOf(jug.figures) === 'may-be');
  const nearest = may.find((jug) => jug === sure.jugs[sure.binding]) ?? may[0];
  if (!nearest) return null;
  const { guaranteed, covered } = nearest.figures;
  const name = look.plan.layers[nearest.layers[0] ?? 0]?.name ?? nearest.name;
  const between = `${percent(covered[0])} to ${percent(covered[1])}`;
  return (
    <details class="may-be-told">
      <summary>
        <b>May be</b>:{' '}
        {usual(nearest.figures)
          ? `within what is known of fats, alkali and scales, ${name} may well be lye-heavy: usually it has ${between}. Aim for a higher superfat.`
          : `only if fats, alkali and scales are nearly all at their worst at once. Usually ${name}, the nearest to it, has ${between}. A higher superfat makes sure.`}
      </summary>
      <p>
        Under 0 % there is more lye than fat to take it up. At the worst {name} has {percent(guaranteed.low)}; 95 times in 100
        it is within the usual figures. The range comes from what is published of each fat: a supplier’s certificate, entered at
        the fat, makes it narrower.
      </p>
      <Safe look={look} />
    </details>
  );
}

/** The superfat to aim for, so that no layer can be lye-heavy; reckoned when it is asked for. */
export function Safe({ look }: { look: Look }) {
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
      <button type="button" onClick={() => setAt(['superfat'], aim.superfat)}>
        Aim for {percent(aim.superfat)}
      </button>
    </div>
  );
}
