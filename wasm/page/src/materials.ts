// The materials of the library as lists to choose from.
import { materials, type Listed, type ListedKind } from './lamella';
import type { Option } from './ui/Field';

const GROUPS: Record<ListedKind, string> = {
  fat: 'fat',
  additive: 'additive',
  liquid: 'liquid',
  colour: 'colour',
  scent: 'scent',
};
let list: Listed[] | undefined;
const all = (): Listed[] => (list ??= materials());
const option = (one: Listed): Option => ({
  key: `${one.kind} ${one.id}`,
  name: one.name,
  beside: one.inci ?? undefined,
  group: GROUPS[one.kind],
  swatch: one.swatch ?? undefined,
});
export const optionsOf = (kinds: readonly ListedKind[]): Option[] =>
  all()
    .filter((one) => kinds.includes(one.kind))
    .map(option);
export const named = (kind: readonly ListedKind[], id: string): Listed | undefined =>
  all().find((one) => one.id === id && kind.includes(one.kind));
