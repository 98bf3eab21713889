// What the library knows of a material.
import { material, type ListedKind } from '../lamella';
import { local } from '../units';
import { Over, Pairs, Sources } from './Parts';

/** A material, and whose numbers it has. */
export function Known({ kind, id, onClose }: { kind: ListedKind; id: string; onClose: () => void }) {
  const found = material(kind, id);
  if (!found) return null;
  const range = (value: { min: string | null; typical: string; max: string | null } | null | undefined) =>
    !value ? '' : value.min && value.max ? `${value.typical} (${value.min} to ${value.max})` : value.typical;
  const pairs: [string, string][] = [];
  if ('saponification_value' in found) {
    pairs.push(['saponification value', range(found.saponification_value)]);
    pairs.push(['iodine value', range(found.iodine_value)]);
    if (found.density) pairs.push([`density at ${found.density.at}`, found.density.typical]);
    if (found.unsaponifiable_max) pairs.push(['unsaponifiable at most', found.unsaponifiable_max]);
    if (found.inci.fat) pairs.push(['INCI', found.inci.fat]);
    if (found.inci.sodium_soap) pairs.push(['INCI of its sodium soap', found.inci.sodium_soap]);
    for (const acid of found.profile) pairs.push([String(acid.acid), range(acid.share)]);
  }
  if ('composition' in found) {
    for (const [part, share] of Object.entries(found.composition)) if (share !== '0 %') pairs.push([part, String(share)]);
    if (found.fat_like) pairs.push(['its fat is like', found.fat_like]);
    if (found.allergen) pairs.push(['allergen', found.allergen]);
  }
  if ('usual_max' in found) pairs.push(['usual at most', found.usual_max]);
  return (
    <Over title={found.name} onClose={onClose}>
      {found.note && <p>{found.note}</p>}
      <Pairs list={pairs.filter(([, value]) => value).map(([name, value]) => [name, local(value)] as const)} />
      <h3>Whose numbers these are</h3>
      <Sources sources={found.bases} />
    </Over>
  );
}
