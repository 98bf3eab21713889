// What went wrong, and what it may come from.
import { useMemo, useState } from 'preact/hooks';
import { causes, type Observation } from '../../lamella';
import type { Look } from '../../store';
import { local } from '../../units';
import { Choice } from '../Field';
import { sentence } from '../Parts';
import { Safety } from '../Safety';

const SEEN: readonly (readonly [Observation, string])[] = [
  ['dull-throughout', 'dull or brown all through'],
  ['dull-border', 'dull only at the border'],
  ['crack-on-top', 'a crack on top'],
  ['ash', 'white bloom'],
  ['weeping', 'drops or a film of liquid'],
  ['soft-centre', 'a soft middle'],
  ['crumbling', 'it crumbles when it is cut'],
  ['dark-spots', 'spots that grow'],
  ['specks', 'specks'],
];

export function Causes({ look }: { look: Look }) {
  const { recipe, plan } = look;
  const [seen, setSeen] = useState<Observation>('dull-throughout');
  const [layer, setLayer] = useState('');
  const found = useMemo(() => causes(recipe, seen, layer === '' ? undefined : Number(layer)), [recipe, seen, layer]);
  return (
    <>
      <div class="panel no-print">
        <div class="grid">
          <Choice label="What is seen" value={seen} options={SEEN} onValue={setSeen} />
          <Choice
            label="Where"
            value={layer}
            options={[['', 'the whole bar'], ...plan.layers.map((one, index) => [String(index), one.name] as const)]}
            onValue={setLayer}
          />
        </div>
      </div>
      <ol class="causes">
        {found.map((cause) => (
          <li key={cause.code} class="panel">
            <h3>
              {sentence(cause.what)} <span class="faint">{cause.standing}</span>
            </h3>
            {cause.speaks_for.length > 0 && <p>For it: {cause.speaks_for.map((one) => `${local(one.figure)}, ${one.says}`).join('; ')}.</p>}
            {cause.speaks_against.length > 0 && <p>Against it: {cause.speaks_against.map((one) => `${local(one.figure)}, ${one.says}`).join('; ')}.</p>}
            <p>To tell: {cause.tell}.</p>
            <p>{sentence(cause.advice)}</p>
            <p class="faint">{sentence(cause.source)}</p>
          </li>
        ))}
      </ol>
      <Safety look={look} />
    </>
  );
}
