// The batch as a whole: its name, its purpose, all its cautions.
import type { Look } from '../../store';
import { mass } from '../../units';
import { Quantity, Switch, Text } from '../Field';
import { Cautions } from '../Parts';
import { problemAt, setAt } from '../places';

export function Batch({ look }: { look: Look }) {
  const { recipe, plan } = look;
  return (
    <article class="panel">
      <Text class="title" quiet label="Name of the recipe" value={recipe.name} onValue={(value) => setAt(['name'], value)} problem={problemAt(look, ['name'])} />
      <Text label="Note" long value={recipe.note ?? ''} onValue={(value) => setAt(['note'], value || undefined)} />
      <div class="grid">
        <Switch
          label="It is for"
          value={recipe.for ?? 'household'}
          options={[['household', 'the household'], ['sale', 'sale']]}
          onValue={(value) => setAt(['for'], value)}
        />
        <Switch
          label="Process"
          value={recipe.process ?? 'cold'}
          options={[['cold', 'cold'], ['hot', 'hot']]}
          onValue={(value) => setAt(['process'], value)}
        />
        <Quantity label="Water left in the cured bar" kind="share" optional placeholder="12" value={recipe.cured_water ?? ''} onValue={(value) => setAt(['cured_water'], value)} problem={problemAt(look, ['cured_water'])} />
      </div>
      <h3>All that deserves a second look</h3>
      <Cautions placed list={plan.cautions} />
      <p class="faint">{mass(plan.batch.weighed_in, 2)} weighed in, {mass(plan.batch.left, 2)} left behind.</p>
    </article>
  );
}
