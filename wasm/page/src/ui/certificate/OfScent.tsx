// What a certificate states of a scent; the library has no such figures, since no two suppliers' are the same.
import { without } from '../../change';
import { allergens, material, type Fragrance } from '../../lamella';
import { local } from '../../units';
import { Quantity, Search, Text } from '../Field';
import type { Fields } from './Certificate';

interface Stated {
  allergen: string;
  share?: string;
}

export function OfScent({ line, stated, problem, put }: Fields) {
  const scent = material('scent', line.id) as Fragrance | undefined;
  const text = (field: string) => (stated[field] as string | undefined) ?? '';
  const list = (stated.allergens ?? []) as Stated[];
  const known = allergens();
  const named = (name: string) => known.find((one) => one.id === name || one.name.toLowerCase() === name.toLowerCase());
  const taken = list.map((one) => named(one.allergen)?.id);
  const all = problem('allergens');
  return (
    <>
      <div class="grid">
        <Text
          label="Its name or number"
          value={text('reference')}
          onValue={(value) => put(['reference'], value || undefined)}
          problem={problem('reference')}
          hint="as the supplier has it"
        />
        <Quantity
          label="Amendment of the fragrance standards"
          kind="number"
          optional
          value={stated.amendment === undefined ? '' : String(stated.amendment)}
          onValue={(value) => put(['amendment'], value === undefined ? undefined : Number(value))}
          problem={problem('amendment')}
          hint="a whole number, 1 to 999"
        />
        <Quantity
          label="At most in the finished bar"
          kind="share"
          optional
          value={text('limit')}
          onValue={(value) => put(['limit'], value)}
          problem={problem('limit')}
          hint={`category 9, bar soap; library: no limit, usual dose up to ${scent ? local(scent.usual_max) : '–'} of the fat`}
        />
        <Quantity
          label="Vanillin"
          kind="share"
          optional
          value={text('vanillin')}
          onValue={(value) => put(['vanillin'], value)}
          problem={problem('vanillin')}
          hint="0 to 100 % of the scent; it browns soap"
        />
        <Quantity
          label="Flash point"
          kind="temperature"
          optional
          value={text('flash_point')}
          onValue={(value) => put(['flash_point'], value)}
          problem={problem('flash_point')}
          hint="0 to 300 °C"
        />
      </div>
      <h4>Allergens, as shares of the scent</h4>
      {list.length > 0 && (
        <ul class="rows">
          {list.map((one, index) => {
            const name = named(one.allergen)?.name ?? one.allergen;
            return (
              <li key={`${one.allergen}${index}`} class="candidate">
                <span>{name}</span>
                <button
                  type="button"
                  class="drop"
                  aria-label={`Leave out ${name}`}
                  onClick={() => put(['allergens'], without(list, index))}
                >
                  ×
                </button>
                <Quantity
                  quiet
                  optional
                  label={`Share of ${name}`}
                  kind="share"
                  placeholder="share"
                  value={one.share ?? ''}
                  onValue={(value) => put(['allergens', index, 'share'], value)}
                  problem={problem('allergens', index, 'share') ?? problem('allergens', index, 'allergen') ?? problem('allergens', index)}
                />
              </li>
            );
          })}
        </ul>
      )}
      {all && <p class="told">{all.message}; {all.advice}</p>}
      <Search
        label="Add an allergen"
        placeholder="name or CAS number"
        options={known
          .filter((one) => !taken.includes(one.id))
          .map((one) => ({ key: one.id, name: one.name, beside: one.cas.join(', '), group: 'allergen' }))}
        onPick={(picked) => put(['allergens'], [...list, { allergen: picked.name }])}
      />
      <p class="faint">One that is not here is on no list that the library knows; look in the regulation for it.</p>
    </>
  );
}
