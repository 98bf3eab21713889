// One task of the batch, as a card.
import { useState } from 'preact/hooks';
import type { BatchEvent, Followed, Recipe, Task } from '../../lamella';
import { withTare } from '../../change';
import { work } from '../../store';
import { useWarm } from '../../warm';
import { fieldText, fieldUnit, take, weighed, when } from '../../units';
import { Quantity } from '../Field';
import { Amount } from './Amount';
import { Timer } from './Timer';
import { reported } from './followed';

const TIMED = new Set(['wait', 'rest', 'cook', 'make-lye']);

interface CardProps {
  task: Task;
  recipe: Recipe;
  now: Followed;
  done: boolean;
  told: string;
  finish: (events: readonly BatchEvent[]) => void;
  back: () => void;
  canUndo: boolean;
  onElse: () => void;
}

/** The way to report what no step asks for. */
export const Else = ({ onElse }: { onElse: () => void }) => (
  <button type="button" class="else" onClick={onElse}>
    Something else happened
  </button>
);

export function Card({ task, recipe, now, done, told, finish, back, canUndo, onElse }: CardProps) {
  const { plan } = now;
  const weigh = task.weigh;
  const scale = weigh ? plan.scales[weigh.scale] : undefined;
  const layer = task.layer === null ? undefined : plan.layers[task.layer];
  const jug = task.jug === null ? undefined : plan.jugs[task.jug];
  const pours = task.due !== null && 'reads' in task.due;
  const planned = weigh ? (pours ? (weigh.reading?.after ?? weigh.mass) : weigh.mass) : '';
  const [typed, setTyped] = useState('');
  const [wrong, setWrong] = useState('');
  const unit = fieldUnit('mass', '');
  const ok = () => {
    if (!weigh || typed.trim() === '') return finish(reported(task, planned));
    const taken = take(typed, unit);
    if ('wrong' in taken) return setWrong(taken.wrong);
    finish(reported(task, taken.value));
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        ok();
      }}
    >
      <div class={`card ${done ? 'done' : ''}`}>
        <h2>
          {layer && (
            <svg class="swatch" viewBox="0 0 10 10" aria-hidden="true">
              <rect width="10" height="10" rx="2" fill={layer.swatch} />
            </svg>
          )}
          {task.title}
        </h2>
        {weigh && scale && (
          <>
            {pours && weigh.reading ? (
              <p class="reading">
                <span>
                  <small>the scale shows</small>
                  {weighed(weigh.reading.before, scale.step)}
                </span>
                <span aria-hidden="true">→</span>
                <span>
                  <small>pour until it shows</small>
                  <strong class="amount">{weighed(weigh.reading.after, scale.step)}</strong>
                </span>
              </p>
            ) : (
              <p class="amount">{weighed(weigh.mass, scale.step)}</p>
            )}
            <p class="into">
              {pours ? `${weighed(weigh.mass, scale.step)} out of ${weigh.vessel}` : `into ${weigh.vessel}`} · scale “{scale.name}”
            </p>
            {!pours && weigh.reading && (
              <p class="reading small-reading">
                <span>
                  <small>jug on the scale: from</small>
                  {weighed(weigh.reading.before, scale.step)}
                </span>
                <span aria-hidden="true">→</span>
                <span>
                  <small>to</small>
                  <strong>{weighed(weigh.reading.after, scale.step)}</strong>
                </span>
              </p>
            )}
            {weigh.reading && jug?.tare === null && (
              <p class="faint">The empty jug’s weight is not known: the scale is at nought with it.</p>
            )}
          </>
        )}
        {task.words && <p class="words">{task.words}</p>}
        {task.work === 'prepare' && !done && <Tares now={now} />}
        {task.work === 'wait' && <Carries recipe={recipe} task={task} />}
        {TIMED.has(task.work) && !weigh && <Timer of={task.key} />}
        {done ? (
          <p class="faint">Done.</p>
        ) : (
          weigh && (
            <Amount
              label={pours ? 'What the scale shows after it, if not that' : 'What really went in, if not that'}
              unit={unit}
              text={typed}
              wrong={wrong}
              placeholder={fieldText(planned, unit)}
              onText={(text) => {
                setTyped(text);
                setWrong('');
              }}
            />
          )
        )}
        {told && (
          <p class="told" role="alert">
            {told}
          </p>
        )}
        <Else onElse={onElse} />
      </div>
      <div class="steps">
        <button type="button" class="big quiet" onClick={back} disabled={!canUndo}>
          Undo
        </button>
        <button type="submit" class="big" disabled={done}>
          {typed.trim() !== '' ? 'That it is' : 'Done'}
        </button>
      </div>
    </form>
  );
}

/** When the layer is likely to carry the next, by the forecast of heat. */
function Carries({ recipe, task }: { recipe: Recipe; task: Task }) {
  const { warm } = useWarm(recipe);
  const layer = task.layer === null ? undefined : warm?.forecast.block.layers[task.layer];
  if (!layer) return null;
  return (
    <p class="faint">
      Likely after {when(layer.carries.likely)}, {when(layer.carries.low)} to {when(layer.carries.high)}. Try it with a
      spoon: the forecast is an estimate.
    </p>
  );
}

/** What the empty jugs weigh, while nothing is in them yet. */
function Tares({ now }: { now: Followed }) {
  return (
    <div class="grid">
      {now.plan.jugs.map((jug) => (
        <Quantity
          key={jug.name}
          label={`${jug.name}, empty`}
          kind="mass"
          optional
          value={jug.tare ?? ''}
          onValue={(value) =>
            work((bench) => ({ ...bench, recipe: JSON.stringify(withTare(JSON.parse(bench.recipe) as Recipe, jug.name, value)) }))
          }
        />
      ))}
    </div>
  );
}
