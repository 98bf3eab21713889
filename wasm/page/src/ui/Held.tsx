// Layers on hold: said wherever the batch is looked at, until a correction or a test of the layer is recorded.
import { useState } from 'preact/hooks';
import type { BatchEvent, Hold, Problem } from '../lamella';
import { fieldUnit, percent, take } from '../units';
import { Amount } from './bench/Amount';
import { told } from './bench/words';

/** Why a layer is on hold. */
function why({ superfat, worst, free_alkali: found }: Hold): string {
  const parts = [
    superfat == null ? '' : `superfat ${percent(superfat, 2)}`,
    worst == null ? '' : `worst case ${percent(worst, 2)}`,
    found == null ? '' : `tested: ${percent(found, 3)} free alkali, too much`,
  ];
  return parts.filter((part) => part !== '').join(', ');
}

interface HeldProps {
  holds: readonly Hold[] | undefined;
  /** Puts a test into the log; without it the log is elsewhere. */
  report?: (events: readonly BatchEvent[]) => readonly Problem[];
}

export function Held({ holds = [], report }: HeldProps) {
  if (holds.length === 0) return null;
  return (
    <section class="held" role="alert">
      <h2>On hold: do not use, sell or give away</h2>
      <ul>
        {holds.map((hold) => (
          <li key={hold.layer}>
            <strong>{hold.layer}</strong>: {why(hold)}
            {report && <Test layer={hold.layer} report={report} />}
          </li>
        ))}
      </ul>
      <p>
        Lye may be left over in it, and burns skin. Keep these bars apart and marked. Correct the layer before it is poured, or have
        its free caustic alkali tested (ISO 456) and record the test. Never test by tongue.
      </p>
    </section>
  );
}

/** What a test of the layer found. */
function Test({ layer, report }: { layer: string; report: NonNullable<HeldProps['report']> }) {
  const unit = fieldUnit('share', '');
  const [text, setText] = useState('');
  const [wrong, setWrong] = useState('');
  return (
    <details class="more">
      <summary>Record a test of {layer}</summary>
      <form
        class="report"
        onSubmit={(event) => {
          event.preventDefault();
          const taken = take(text, unit);
          setWrong('wrong' in taken ? taken.wrong : told(report([{ tested: layer, free_alkali: taken.value }])));
        }}
      >
        <Amount
          label="Free caustic alkali, as sodium hydroxide"
          unit={unit}
          text={text}
          wrong={wrong}
          onText={(typed) => {
            setText(typed);
            setWrong('');
          }}
        />
        <button type="submit" class="big" disabled={text.trim() === ''}>
          Put the test into the log
        </button>
      </form>
    </details>
  );
}
