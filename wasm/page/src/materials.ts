// The materials of the library as lists to choose from.
import { materials, type Listed, type ListedKind } from './lamella';
import type { Option } from './ui/Field';

let list: Listed[] | undefined;
const all = (): Listed[] => (list ??= materials());
const option = (one: Listed): Option => ({
  key: `${one.kind} ${one.id}`,
  name: one.name,
  beside: one.inci ?? undefined,
  group: one.kind,
  swatch: one.swatch ?? undefined,
});
/** What there is of some kinds. */
export const optionsOf = (kinds: readonly ListedKind[]): Option[] =>
  all()
    .filter((one) => kinds.includes(one.kind))
    .map(option);
/** A material by its id. */
export const named = (kind: readonly ListedKind[], id: string): Listed | undefined =>
  all().find((one) => one.id === id && kind.includes(one.kind));
