// A material of the maker’s own.
import type { Path } from '../change';
import type { Look } from '../store';
import { optionsOf } from '../materials';
import type { AnyDose } from './Doses';
import { Choice, Quantity } from './Field';
import { problemAt, setAt } from './places';

export const slug = (text: string) =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60) || 'own';

const OWN = ['water', 'fat', 'sugars', 'protein', 'fibre', 'minerals'] as const;

/** What a material of one's own is made of. */
export function Own({ path, look, dose }: { path: Path; look: Look; dose: AnyDose }) {
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
            onValue={(value) => setAt([...path, 'composition', part], value)}
            problem={problemAt(look, [...path, 'composition', part])}
          />
        ))}
        {composition.fat && composition.fat !== '0 %' && (
          <Choice
            label="its fat is like"
            value={composition.fat_like ?? ''}
            options={[['', 'choose'], ...fats.map((fat) => [fat.key.slice(4), fat.name] as const)]}
            onValue={(value) => setAt([...path, 'composition', 'fat_like'], value || undefined)}
          />
        )}
      </div>
    </fieldset>
  );
}
