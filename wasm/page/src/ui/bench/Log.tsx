// What was reported: each entry can be changed at its place, or taken back.
import { useState } from 'preact/hooks';
import type { BatchEvent, Plan, Problem, Recipe } from '../../lamella';
import type { BenchState } from '../../bench-state';
import { work } from '../../store';
import { fieldText, fieldUnit, take } from '../../units';
import { capital } from '../Parts';
import { Amount } from './Amount';
import { withFigure, withoutEntry } from './followed';
import { clock, told, words } from './words';

export function Log({ recipe, bench, plan }: { recipe: Recipe; bench: BenchState; plan: Plan }) {
  const { log } = bench;
  if (log.length === 0) return null;
  return (
    <details class="more">
      <summary>What was reported ({log.length})</summary>
      <ol class="log">
        {log.map(({ event }, index) => (
          // The last is what is most likely looked for, and stands first.
          <li key={index}>
            <details>
              <summary>
                <span>{capital(words(event, plan))}</span> <span class="faint">{clock(event)}</span>
              </summary>
              <Entry key={JSON.stringify(event)} recipe={recipe} bench={bench} index={index} event={event} />
            </details>
          </li>
        )).reverse()}
      </ol>
    </details>
  );
}

const FIGURES = [
  ['mass', 'mass', 'It was really'],
  ['temperature', 'temperature', 'It was really'],
  ['purity', 'share', 'It is really'],
  ['free_alkali', 'share', 'It was really'],
] as const;

function Entry({ recipe, bench, index, event }: { recipe: Recipe; bench: BenchState; index: number; event: BatchEvent }) {
  const figure = FIGURES.find(([field]) => event[field] !== undefined);
  const unit = figure ? fieldUnit(figure[1], '') : '';
  const [text, setText] = useState(figure ? fieldText(event[figure[0]] ?? '', unit) : '');
  const [wrong, setWrong] = useState('');
  const put = (next: BenchState | readonly Problem[]) => ('log' in next ? work(() => next) : setWrong(told(next)));
  const change = () => {
    if (!figure) return;
    const taken = take(text, unit);
    if ('wrong' in taken) setWrong(taken.wrong);
    else put(withFigure(recipe, bench, index, { ...event, [figure[0]]: taken.value }));
  };
  return (
    <form
      class="report"
      onSubmit={(submitted) => {
        submitted.preventDefault();
        change();
      }}
    >
      {figure && (
        <Amount
          label={figure[2]}
          unit={unit}
          text={text}
          wrong={wrong}
          onText={(typed) => {
            setText(typed);
            setWrong('');
          }}
        />
      )}
      {!figure && wrong && (
        <p class="told" role="alert">
          {wrong}
        </p>
      )}
      <div class="actions">
        {figure && <button type="submit">Change it</button>}
        <button type="button" onClick={() => put(withoutEntry(recipe, bench, index))}>
          Take it back
        </button>
      </div>
    </form>
  );
}
