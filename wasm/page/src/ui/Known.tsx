// What the library knows of a material, and what the maker's own lot of it has instead.
import { material, type ListedKind } from '../lamella';
import type { Line } from '../certificates';
import { local, ranged } from '../units';
import { Certificate } from './certificate/Certificate';
import { Over, Pairs, Sources } from './Parts';

interface KnownProps {
  kind: ListedKind;
  id: string;
  /** The line of the recipe that it is looked at from, where that may have a certificate. */
  line?: Line | undefined;
  onClose: () => void;
}

/** A material, and whose numbers it has. */
export function Known({ kind, id, line, onClose }: KnownProps) {
  const found = material(kind, id);
  if (!found) return null;
  const pairs: [string, string][] = [];
  if ('saponification_value' in found) {
    pairs.push(['saponification value', ranged(found.saponification_value)]);
    pairs.push(['iodine value', ranged(found.iodine_value)]);
    if (found.density) pairs.push([`density at ${found.density.at}`, found.density.typical]);
    if (found.unsaponifiable_max) pairs.push(['unsaponifiable at most', found.unsaponifiable_max]);
    if (found.inci.fat) pairs.push(['INCI', found.inci.fat]);
    if (found.inci.sodium_soap) pairs.push(['INCI of its sodium soap', found.inci.sodium_soap]);
    for (const acid of found.profile) pairs.push([String(acid.acid), ranged(acid.share)]);
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
      {line && <Certificate line={line} name={found.name} />}
      <h3>What the library has</h3>
      <Pairs list={pairs.filter(([, value]) => value).map(([name, value]) => [name, local(value)] as const)} />
      <h3>Whose numbers these are</h3>
      <Sources sources={found.bases} />
    </Over>
  );
}
