// Additives, colours and scents: what is stirred into a layer, the lye or the pot.
import { useMemo, useState } from 'preact/hooks';
import type { ListedKind } from '../lamella';
import { at, pointer, set, without, type Path } from '../change';
import { edit, type Look } from '../store';
import { fieldUnit, weighed } from '../units';
import type { Line } from '../certificates';
import { named, optionsOf } from '../materials';
import { Choice, Quantity, Search, Swatch, type Option } from './Field';
import { By } from './certificate/By';
import { Known } from './Known';
import { Own, slug } from './Own';
import { Cautions } from './Parts';
import { setAt, under } from './places';

type DoseList = 'doses' | 'colours' | 'scents';
export type AnyDose = Record<string, unknown> & { dose: string; of?: string; treatment?: string; name?: string };

/** The id that a dose names, and what kind of thing that is. */
function idOf(dose: AnyDose): { id: string; kinds: readonly ListedKind[] } {
  if (typeof dose.fat === 'string') return { id: dose.fat, kinds: ['fat'] };
  if (typeof dose.colour === 'string') return { id: dose.colour, kinds: ['colour'] };
  if (typeof dose.scent === 'string') return { id: dose.scent, kinds: ['scent'] };
  return { id: String(dose.additive ?? ''), kinds: ['additive', 'liquid'] };
}

interface DosesProps {
  look: Look;
  /** What has the lists: a layer, a jug, the lye, the recipe itself. */
  path: Path;
  /** Whether it is the pot or the lye, where shares are of the batch's fat. */
  batch?: boolean;
  lists?: readonly DoseList[];
  add: string;
}

const START: Record<DoseList, string> = { doses: '3 %', colours: '0.2 %', scents: '2 %' };

/** Additives, colours and scents of one place. */
export function Doses({ look, path, batch, lists = ['doses', 'colours', 'scents'], add }: DosesProps) {
  const [known, setKnown] = useState<{ kind: ListedKind; id: string; line?: Line | undefined } | undefined>();
  const kinds: ListedKind[] = [];
  if (lists.includes('doses')) kinds.push('additive', 'liquid', 'fat');
  if (lists.includes('colours')) kinds.push('colour');
  if (lists.includes('scents')) kinds.push('scent');
  const options = useMemo(() => optionsOf(kinds), [kinds.join()]);
  const { recipe, plan } = look;
  const items = [
    ...plan.pot.doses,
    ...plan.lye.doses,
    ...plan.jugs.flatMap((jug) => [...jug.doses, ...jug.late_doses]),
  ];
  const rows = lists.flatMap((name) =>
    ((at(recipe, [...path, name]) as AnyDose[] | undefined) ?? []).map((dose, index) => ({ name, dose, index })),
  );
  const pick = (picked: Option) => {
    const [kind, ...id] = picked.key.split(' ');
    const name = (kind === 'colour' ? 'colours' : kind === 'scent' ? 'scents' : 'doses') as DoseList;
    const key = kind === 'liquid' || kind === 'own' ? 'additive' : kind!;
    const dose: AnyDose = { [key]: id.join(' '), dose: START[name] };
    if (kind === 'own') {
      dose.name = picked.name.replace(/^Your own: /, '');
      dose.composition = { water: '0 %' };
    }
    edit((now) => set(now, [...path, name], [...((at(now, [...path, name]) as AnyDose[]) ?? []), dose]));
  };
  return (
    <section class="doses">
      {rows.length > 0 && (
        <ul class="rows">
          {rows.map(({ name, dose, index }) => {
            const here = [...path, name, index];
            const { id, kinds: which } = idOf(dose);
            const found = named(which, id);
            const item = items.find((one) => one.pointer === pointer(here));
            const line: Line | undefined =
              found?.kind === 'fat' || found?.kind === 'scent' ? { path: here, kind: found.kind, id } : undefined;
            const share = fieldUnit('dose', dose.dose) === '%';
            const wrong = look.problems.find((one) => one.pointer.startsWith(pointer(here)));
            return (
              <li key={`${name}${index}${id}`}>
                <div class="row">
                  <button
                    type="button"
                    class="known"
                    disabled={!found}
                    onClick={() => found && setKnown({ kind: found.kind, id, line })}
                    title="What is known of it"
                  >
                    {found?.swatch && <Swatch colour={found.swatch} />}
                    {found?.name ?? dose.name ?? id}
                    {line && <By line={line} />}
                  </button>
                  <Quantity
                    quiet
                    label={`Dose of ${found?.name ?? id}`}
                    kind="dose"
                    value={dose.dose}
                    onValue={(value) => setAt([...here, 'dose'], value)}
                    problem={wrong}
                  />
                  <span class="grams">
                    {item ? weighed(item.weighed, plan.scales[item.scale]!.step) : ''}
                  </span>
                  <button
                    type="button"
                    class="drop"
                    aria-label={`Leave out ${found?.name ?? id}`}
                    onClick={() =>
                      edit(
                        (now) => {
                          const left = without(at(now, [...path, name]) as AnyDose[], index);
                          return set(now, [...path, name], left.length > 0 ? left : undefined);
                        },
                        `${found?.name ?? id} left out.`,
                      )
                    }
                  >
                    ×
                  </button>
                </div>
                <div class="row under">
                  {!batch && (
                    <Choice
                      quiet
                      label="Dose of what"
                      value={share ? (dose.of ?? 'layer fat') : 'mass'}
                      options={[
                        ['layer fat', 'of the layer’s fat'],
                        ['layer', 'of the layer'],
                        ['batch fat', 'of all the fat'],
                        ['batch', 'of the whole batch'],
                        ['mass', 'by weight'],
                      ]}
                      onValue={(of) =>
                        edit((now) => {
                          const weigh = of === 'mass';
                          const unit = weigh ? (item?.weighed ?? '10 g') : share ? dose.dose : '3 %';
                          let next = set(now, [...here, 'dose'], unit);
                          next = set(next, [...here, 'of'], weigh || of === 'layer fat' ? undefined : of);
                          return of === 'layer' || of === 'batch' ? set(next, [...here, 'treatment'], undefined) : next;
                        })
                      }
                    />
                  )}
                  {name === 'doses' && !(dose.of === 'layer' || dose.of === 'batch') && (
                    <Choice
                      quiet
                      label="Lye for it"
                      value={(dose.treatment ?? 'absorb') as 'absorb' | 'balance'}
                      options={[
                        ['absorb', 'lye unchanged, superfat moves'],
                        ['balance', 'lye follows, superfat kept'],
                      ]}
                      onValue={(value) => setAt([...here, 'treatment'], value === 'balance' ? value : undefined)}
                    />
                  )}
                </div>
                {!found && name === 'doses' && <Own path={here} look={look} dose={dose} />}
                <Cautions list={under(look, pointer(here))} />
              </li>
            );
          })}
        </ul>
      )}
      <Search
        label={add}
        options={options}
        onPick={pick}
        own={
          lists.includes('doses')
            ? (text) => ({ key: `own ${slug(text)}`, name: `Your own: ${text}`, group: 'say what is in it' })
            : undefined
        }
      />
      {known && <Known {...known} onClose={() => setKnown(undefined)} />}
    </section>
  );
}
