// How sure a superfat is, and which one is on the safe side.
import { useState } from 'preact/hooks';
import type { Advice, Recipe } from '../../lamella';
import { safeOf } from '../../worker';
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
