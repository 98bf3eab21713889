// What is to be known before lye is touched.
import type { Look } from '../store';

/** The rules of lye safety, and who decides about a sale. */
export function Safety({ look, open }: { look: Look; open?: boolean }) {
  const lines = look.safety;
  const last = lines[lines.length - 1];
  return (
    <section class="safety" aria-label="Lye safety">
      <p>
        <strong>Lye burns.</strong> Goggles and gloves; lye into water, never water into lye; children and animals out. On
        skin or in eyes: water, much of it, at once; no vinegar.
      </p>
      <p class={look.plan.for === 'household' ? 'household' : ''}>{last}</p>
      <details open={open}>
        <summary>All of it</summary>
        <ul>
          {lines.map((line, index) => (
            <li key={index}>{line}</li>
          ))}
        </ul>
      </details>
    </section>
  );
}
