// What the certificate or the tub states of an alkali, beside what the library takes.
import { alkali } from '../../lamella';
import { set } from '../../change';
import { edit, type Look } from '../../store';
import { local, ranged } from '../../units';
import { Quantity } from '../Field';
import { problemAt, setAt } from '../places';

const NAMES = { naoh: 'Sodium hydroxide', koh: 'Potassium hydroxide' } as const;
const STATED = ['purity', 'purity_within', 'carbonate'] as const;

export function OfAlkali({ look, kind }: { look: Look; kind: keyof typeof NAMES }) {
  const stated = look.recipe.alkali[kind] ?? {};
  const known = alkali(kind);
  const name = NAMES[kind];
  const at = (field: (typeof STATED)[number]) => ({
    kind: 'share' as const,
    optional: true,
    value: stated[field] ?? '',
    onValue: (value: string | undefined) => setAt(['alkali', kind, field], value),
    problem: problemAt(look, ['alkali', kind, field]),
  });
  const any = STATED.some((field) => stated[field] !== undefined);
  return (
    <fieldset class="own">
      <legend>
        {name} {any && <b class="by">by certificate</b>}
      </legend>
      <div class="grid">
        <Quantity label={`${name} is pure to`} placeholder={known ? local(known.purity.typical).replace(/\s*%$/, '') : ''} hint={`library: ${ranged(known?.purity)}`} {...at('purity')} />
        <Quantity label="give or take" hint={stated.purity ? 'left empty: 1 point either way' : 'left empty: the range of what is sold'} {...at('purity_within')} />
        <Quantity label="carbonate in it" hint={`left empty: none; food grade has at most ${known ? local(known.carbonate_max) : '–'}`} {...at('carbonate')} />
      </div>
      {any && (
        <div class="actions">
          <button
            type="button"
            onClick={() =>
              edit(
                (recipe) => STATED.reduce((next, field) => set(next, ['alkali', kind, field], undefined), recipe),
                'The figures are those of the library again.',
              )
            }
          >
            Back to the library’s figures
          </button>
        </div>
      )}
    </fieldset>
  );
}
