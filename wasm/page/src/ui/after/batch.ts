// What the papers are made of: the batch as the bench reported it, else the recipe.
import { holds, LamellaError, type Batch, type Hold, type Recipe } from '../../lamella';
import { drafted } from '../../record';
import { kept, papers, type Look } from '../../store';
import { made } from './record/whole';

/** The log of the batch where the recipe in hand is what stands on the bench, so that papers are of what was made. */
export function source(look: Look): Recipe | Batch {
  const { bench } = kept();
  const { batch } = made(look, bench);
  return batch && bench.log.length > 0 && bench.recipe === JSON.stringify(look.recipe) ? batch : look.recipe;
}

/** The layers on hold, by the bench and by the record that was kept of it. */
export function standing(look: Look): readonly Hold[] {
  const { recipe, batch } = made(look, kept().bench);
  const { record } = papers();
  // A record that is half filled in takes no hold away, and a log that cannot be read says nothing: the bench tells why.
  const bare = { holds: record.holds ?? [] };
  for (const [draft, log] of [[record, batch], [bare, batch], [bare, undefined]] as const) {
    try {
      return holds(drafted(draft, recipe.name).document, log);
    } catch (error) {
      if (!(error instanceof LamellaError)) throw error;
    }
  }
  return [];
}
