// The supplier's certificate of a fat or a scent: what it states goes before the library's figures, in this recipe alone.
import { useState } from 'preact/hooks';
import { pointer, type Path } from '../../change';
import { byLibrary, problemsOf, shareWithTwins, standing, state, statedOf, twins, withdraw, type Line, type Stated } from '../../certificates';
import type { Plan, Problem } from '../../lamella';
import { isLook, kept, looked, lookAt } from '../../store';
import { weighed } from '../../units';
import { Problems } from '../Parts';
import { OfFat } from './OfFat';
import { OfScent } from './OfScent';

/** What the fields of a certificate need. */
export interface Fields {
  line: Line;
  stated: Stated;
  problem: (...path: (string | number)[]) => Problem | undefined;
  put: (path: Path, value: unknown) => void;
}

export function Certificate({ line, name }: { line: Line; name: string }) {
  const [open, setOpen] = useState(false);
  const now = standing(line);
  if (now === 'none' && !open) {
    return (
      <div class="actions">
        <button type="button" onClick={() => setOpen(true)}>
          Enter the supplier’s certificate
        </button>
      </div>
    );
  }
  return <Editor line={line} name={name} onGone={() => setOpen(false)} />;
}

function Editor({ line, name, onGone }: { line: Line; name: string; onGone: () => void }) {
  const now = standing(line);
  const stated = statedOf(line);
  const problems = problemsOf(line, stated);
  const others = now === 'reckoned' ? twins(kept().recipe, line).length : 0;
  const fields: Fields = {
    line,
    stated,
    problem: (...path) => problems.find((one) => one.pointer === pointer(path)),
    put: (path, value) => state(line, (old) => change(old, path, value)),
  };
  return (
    <section class="certificate">
      <h3>The supplier’s certificate</h3>
      <p class="faint">What you enter goes before the library’s figure, in this recipe alone. Leave empty what it does not state.</p>
      {line.kind === 'fat' ? <OfFat {...fields} /> : <OfScent {...fields} />}
      <div class="standing" role="status">
        {now === 'unfinished' && (
          <p class="told">Kept, but not reckoned with yet: {problems[0]?.message ?? 'it is not finished'}.</p>
        )}
        {now === 'reckoned' && line.kind === 'fat' && <Effect line={line} />}
        {now === 'reckoned' && line.kind === 'scent' && <p>{name} goes by its certificate.</p>}
      </div>
      <div class="actions">
        {others > 0 && (
          <button type="button" onClick={() => shareWithTwins(line)}>
            The same for all {name} in this recipe
          </button>
        )}
        <button
          type="button"
          onClick={() => {
            withdraw(line);
            onGone();
          }}
        >
          {now === 'none' ? 'No certificate' : 'Back to the library’s figures'}
        </button>
      </div>
    </section>
  );
}

const alkalisOf = (plan: Plan) =>
  plan.lye.alkalis.map((item) => `${item.name} ${weighed(item.weighed, plan.scales[item.scale]!.step)}`).join(', ');

/** What the certificate does to the lye. */
function Effect({ line }: { line: Line }) {
  const look = looked();
  if (!isLook(look) || look.problems.length > 0) return <Problems list={look.problems} />;
  const without = lookAt(byLibrary(kept().recipe, line), 0);
  return (
    <p>
      With the certificate: {alkalisOf(look.plan)}.{' '}
      {isLook(without) && <>By the library’s figures: {alkalisOf(without.plan)}.</>}
    </p>
  );
}

/** A change of what is stated, field by field; a list or a profile is made where there is none. */
function change(stated: Stated, path: Path, value: unknown): Stated {
  const [field, ...below] = path as [string, ...(string | number)[]];
  const [step] = below;
  if (step === undefined) return { ...stated, [field]: value };
  const old = stated[field];
  if (typeof step === 'number') {
    const list = [...((old as Stated[] | undefined) ?? [])];
    list[step] = { ...list[step], [String(below[1])]: value };
    return { ...stated, [field]: list };
  }
  const inner: Stated = { ...(old as Stated | undefined), [step]: value };
  if (value === undefined) delete inner[step];
  return { ...stated, [field]: inner };
}
