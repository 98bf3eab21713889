// What a certificate states of a fat, beside what the library has.
import { useState } from 'preact/hooks';
import { ACIDS, acidName } from '../../acids';
import { material, rest, type Fat } from '../../lamella';
import { local, percent, ranged } from '../../units';
import { Choice, Quantity, Text } from '../Field';
import { sentence } from '../Parts';
import type { Fields } from './Certificate';

const library = (figure: string) => (figure ? `library: ${figure}` : 'library: none');

export function OfFat({ line, stated, problem, put }: Fields) {
  const fat = material('fat', line.id) as Fat | undefined;
  const text = (field: string) => (stated[field] as string | undefined) ?? '';
  const { density, unsaponifiable_max: most } = fat ?? {};
  return (
    <>
      <div class="grid">
        <Quantity
          label="Saponification value"
          kind="saponification"
          optional
          value={text('saponification_value')}
          onValue={(value) => put(['saponification_value'], value)}
          problem={problem('saponification_value')}
          hint={library(ranged(fat?.saponification_value))}
        />
        <Quantity
          label="Iodine value"
          kind="number"
          after="g I₂/100 g"
          optional
          value={text('iodine_value')}
          onValue={(value) => put(['iodine_value'], value)}
          problem={problem('iodine_value')}
          hint={library(ranged(fat?.iodine_value))}
        />
        <Quantity
          label="Unsaponifiable matter"
          kind="share"
          optional
          value={text('unsaponifiable')}
          onValue={(value) => put(['unsaponifiable'], value)}
          problem={problem('unsaponifiable')}
          hint={library(most ? `at most ${local(most)}; half of that is reckoned with` : '')}
        />
        <Quantity
          label="Density at 20 °C"
          kind="density"
          optional
          value={text('density')}
          onValue={(value) => put(['density'], value)}
          problem={problem('density')}
          hint={library(density ? `${local(density.typical)} at ${local(density.at)}` : '')}
        />
      </div>
      <Profile fat={fat} stated={(stated.profile ?? {}) as Record<string, string>} problem={problem} put={put} />
      <details class="more">
        <summary>Names on the label</summary>
        <div class="grid">
          {NAMES.map(([field, label, own]) => (
            <Text
              key={field}
              label={label}
              value={text(field)}
              onValue={(value) => put([field], value || undefined)}
              problem={problem(field)}
              hint={library(fat?.inci[own] ?? '')}
            />
          ))}
        </div>
      </details>
    </>
  );
}

const NAMES = [
  ['inci', 'INCI', 'fat'],
  ['sodium_soap_inci', 'INCI of its sodium soap', 'sodium_soap'],
  ['potassium_soap_inci', 'INCI of its potassium soap', 'potassium_soap'],
] as const;

type ProfileProps = Pick<Fields, 'problem' | 'put'> & { fat: Fat | undefined; stated: Record<string, string> };

/** The fatty acids: all or none of them, since they are shares of one whole. */
function Profile({ fat, stated, problem, put }: ProfileProps) {
  const [more, setMore] = useState<string[]>([]);
  const known = (fat?.profile ?? []).map((row) => String(row.acid));
  const others = [...new Set([...Object.keys(stated), ...more])].filter((acid) => !known.includes(acid));
  const shares = Object.values(stated);
  const whole = problem('profile');
  return (
    <details class="more" open={shares.length > 0}>
      <summary>Fatty acids</summary>
      <p class="faint">All that the certificate states, or none of them: together 95 to 101 %.</p>
      <div class="grid acids">
        {[...known, ...others].map((acid) => (
          <Quantity
            key={acid}
            label={acidName(acid)}
            kind="share"
            optional
            value={stated[acid] ?? ''}
            onValue={(value) => put(['profile', acid], value)}
            problem={problem('profile', acid)}
            hint={library(ranged(fat?.profile.find((row) => String(row.acid) === acid)?.share))}
          />
        ))}
      </div>
      <Choice
        label="Another fatty acid"
        value=""
        options={[
          ['', 'choose'],
          ...ACIDS.filter((acid) => !known.includes(acid) && !others.includes(acid)).map((acid) => [acid, acidName(acid)] as const),
        ]}
        onValue={(acid) => acid && setMore([...more, acid])}
      />
      {shares.length > 0 && <p class={whole ? 'told' : 'faint'}>{whole ? sentence(whole.message) : leftOf(shares)}</p>}
    </details>
  );
}

function leftOf(shares: readonly string[]): string {
  const left = rest([...shares, '0 %'], shares.length);
  return left === undefined ? 'They come to a little more than 100 %.' : `${percent(left)} is not stated.`;
}
