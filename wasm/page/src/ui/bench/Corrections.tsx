// What follows from what the scale really showed: what was reckoned anew, what is to be put right.
import { useState } from 'preact/hooks';
import type { Addition, BatchEvent, Change, Correction, Problem } from '../../lamella';
import { fieldText, fieldUnit, local, percent, take } from '../../units';
import { sentence } from '../Parts';
import { Amount } from './Amount';
import { told } from './words';

export function Changes({ list }: { list: readonly Change[] }) {
  if (list.length === 0) return null;
  return (
    <section class="changed" role="status">
      <h3>The rest was reckoned anew</h3>
      <ul>
        {list.slice(0, 12).map((change, index) => (
          <li key={index}>
            {change.place}, {change.what}: {local(change.before)} → <b>{local(change.now)}</b>{' '}
            <span class="faint">{local(change.by)}</span>
          </li>
        ))}
        {list.length > 12 && <li class="faint">and {list.length - 12} more</li>}
      </ul>
    </section>
  );
}

/** What the soap is safe for, in the words of the library's advice. */
const SAFE: Record<string, string> = {
  hold: 'Keep it apart and marked while it cures; do not use it, give it away or sell it before it is tested.',
  test: 'Have its free caustic alkali determined (ISO 456); only when none is found may it be used.',
  discard: 'It holds alkali that no fat takes up: throw it away where children and animals cannot reach it.',
};

type ReportTo = (events: readonly BatchEvent[]) => readonly Problem[];

export function Corrections({ list, report }: { list: readonly Correction[]; report: ReportTo }) {
  const wrong = list.filter((one) => one.remedy !== 'nothing');
  // Where nothing is to be put right, but what is not known of fats, alkali and scales may still leave alkali over.
  const unsure = list.filter((one) => one.remedy === 'nothing' && one.safe.length > 0);
  return (
    <>
      {wrong.length > 0 && (
        <section class="corrections" role="alert">
          {wrong.map((one) => (
            <Wrong key={one.place} of={one} report={report} />
          ))}
        </section>
      )}
      {unsure.length > 0 && (
        <details class="unsure">
          <summary>
            {unsure.map((one) => one.place).join(', ')}: by what is not known of fats, alkali and scales, alkali may be left
            over
          </summary>
          {[...new Set(unsure.flatMap((one) => one.safe))].map((word) => (
            <p key={word}>{SAFE[word] ?? word}</p>
          ))}
          {[...new Set(unsure.flatMap((one) => one.notes))].map((note) => (
            <p key={note} class="faint">
              {sentence(note)}
            </p>
          ))}
        </details>
      )}
    </>
  );
}

function Wrong({ of, report }: { of: Correction; report: ReportTo }) {
  return (
    <div class="wrong-batch">
      <h3>
        {of.place === 'batch' ? 'The whole batch' : of.place}: superfat {percent(of.superfat)}, planned {percent(of.aimed)}
      </h3>
      {typeof of.remedy === 'object' && 'additions' in of.remedy && (
        <p>
          To put it right, add {of.remedy.additions.additions.map((add) => `${local(add.mass)} of ${add.name}`).join(' and ')}:
          superfat {percent(of.remedy.additions.superfat)} then.
        </p>
      )}
      {typeof of.remedy === 'object' && 'additions' in of.remedy && (
        <Additions key={JSON.stringify(of.remedy)} list={of.remedy.additions.additions} report={report} />
      )}
      {typeof of.remedy === 'object' && 'cannot' in of.remedy && <p>{of.remedy.cannot.reasons.map(sentence).join(' ')}</p>}
      {of.safe.map((word) => (
        <p key={word}>
          <strong>{SAFE[word] ?? word}</strong>
        </p>
      ))}
      {of.notes.map((note, index) => (
        <p key={index} class="faint">
          {sentence(note)}
        </p>
      ))}
    </div>
  );
}

/** What goes into the vessel of the lye when it goes into no jug; the rest goes into the pot. */
const IN_LYE = ['naoh', 'koh', 'water'];

/** What was added to put a place right, as it was really weighed: in the log by one press. */
function Additions({ list, report }: { list: readonly Addition[]; report: ReportTo }) {
  const unit = fieldUnit('mass', '');
  const [texts, setTexts] = useState<Record<string, string>>({});
  const [wrong, setWrong] = useState<Record<string, string>>({});
  const hand = () => {
    const bad: Record<string, string> = {};
    const events = list.map(({ item, vessel, mass }) => {
      const typed = texts[item]?.trim() ?? '';
      const taken = typed === '' ? { value: mass } : take(typed, unit);
      if ('wrong' in taken) bad[item] = taken.wrong;
      const into = vessel === null ? {} : { in: vessel };
      return { added: item, ...into, mass: 'value' in taken ? taken.value : mass };
    });
    const problems = Object.keys(bad).length > 0 ? [] : report(events);
    setWrong(problems.length > 0 ? { '': told(problems) } : bad);
  };
  return (
    <details class="put-right">
      <summary>It is put right</summary>
      <form
        class="report"
        onSubmit={(event) => {
          event.preventDefault();
          hand();
        }}
      >
        {list.some(({ item }) => item === 'naoh' || item === 'koh') && (
          <p>Goggles and gloves on. Alkali into the water, never water into alkali; let it cool before it goes in.</p>
        )}
        {list.map(({ item, name, vessel, mass }) => (
          <Amount
            key={item}
            label={`${name} into ${vessel ?? (IN_LYE.includes(item) ? 'the lye' : 'the pot')}, as weighed`}
            unit={unit}
            text={texts[item] ?? ''}
            placeholder={fieldText(mass, unit)}
            wrong={wrong[item] ?? ''}
            onText={(text) => setTexts((old) => ({ ...old, [item]: text }))}
          />
        ))}
        {wrong[''] && (
          <p class="told" role="alert">
            {wrong['']}
          </p>
        )}
        <button type="submit" class="big">
          It is in: put it into the log
        </button>
      </form>
    </details>
  );
}
