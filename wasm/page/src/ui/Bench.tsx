// At the bench: one thing at a time, large, with gloves on. What the scale really showed goes into the log of the batch,
// and the rest of the plan follows from it.
import { useEffect, useMemo, useState } from 'preact/hooks';
import { follow, LamellaError } from '../lamella';
import type { BatchEvent, Change, Correction, Followed, Problem, Recipe, Task } from '../lamella';
import { emptyBench, type BenchState } from '../bench-state';
import { kept, useWarm, work, type Look } from '../store';
import { fieldUnit, local, massUnit, percent, quantity, take, unitOf, weighed, when } from '../units';
import { withTare } from '../change';
import { Safety } from './App';
import { Quantity } from './Field';
import { sentence } from './Parts';

const TIMED = new Set(['wait', 'rest', 'cook', 'make-lye']);

/** The batch as its log tells it, or why the log cannot be. */
function followed(recipe: Recipe, log: readonly BatchEvent[]): Followed | readonly Problem[] {
  try {
    return follow({ lamella: 'batch/1', recipe, events: [...log] });
  } catch (error) {
    if (error instanceof LamellaError) return error.problems;
    throw error;
  }
}

export function Bench({ look }: { look: Look }) {
  const bench = kept().bench;
  useAwake(bench.begun > 0);
  if (bench.begun === 0) return <Begin look={look} />;
  return <Work bench={bench} look={look} />;
}

function Begin({ look }: { look: Look }) {
  return (
    <section class="bench begin">
      <h1>{look.recipe.name}</h1>
      <p>One thing at a time. What is done is kept, also when this page is closed.</p>
      <Safety look={look} open />
      <button
        type="button"
        class="big"
        onClick={() => work(() => ({ ...emptyBench(), begun: Date.now(), recipe: JSON.stringify(look.recipe) }))}
      >
        Goggles and gloves are on: begin
      </button>
    </section>
  );
}

function Work({ bench, look }: { bench: BenchState; look: Look }) {
  const recipe = useMemo(() => JSON.parse(bench.recipe) as Recipe, [bench.recipe]);
  const now = useMemo(() => followed(recipe, bench.log.map((entry) => entry.event)), [recipe, bench.log]);
  const [told, setTold] = useState('');
  const shown = 'plan' in now ? (bench.at || now.tasks.find((task) => !bench.done.includes(task.key))?.key) : '';
  useEffect(() => scrollTo({ top: 0 }), [shown]);
  if (!('plan' in now)) {
    return (
      <section class="bench">
        <h1>{recipe.name}</h1>
        <p class="told">{sentence(now[0]?.message ?? 'the log of this batch cannot be read')}</p>
        <div class="steps">
          <button type="button" class="big quiet" onClick={() => work(undone)}>
            Undo
          </button>
        </div>
      </section>
    );
  }
  const list = now.tasks;
  const open = list.findIndex((task) => !bench.done.includes(task.key));
  const chosen = bench.at === '' ? -1 : list.findIndex((task) => task.key === bench.at);
  const at = chosen >= 0 ? chosen : open;
  const task = list[at];
  const go = (to: number) => {
    const next = list[to];
    setTold('');
    if (next) work((old) => ({ ...old, at: next.key }));
  };
  const finish = (events: readonly BatchEvent[]) => {
    if (!task) return;
    const log = [...bench.log, ...events.map((event) => ({ key: task.key, event }))];
    const next = followed(recipe, log.map((entry) => entry.event));
    if (!('plan' in next)) {
      setTold(next.map((problem) => `${sentence(problem.message)} ${sentence(problem.advice)}`).join(' '));
      return;
    }
    setTold('');
    work((old) => ({ ...old, log, done: [...old.done.filter((key) => key !== task.key), task.key], at: '' }));
  };
  return (
    <section class="bench">
      <header class="way">
        <h1>{recipe.name}</h1>
        <p>
          {bench.done.length} of {list.length} done
        </p>
        <progress value={bench.done.length} max={list.length} aria-label="Done" />
      </header>
      {task ? (
        <Card
          key={`${task.key}${task.weigh?.mass ?? ''}`}
          task={task}
          recipe={recipe}
          now={now}
          done={bench.done.includes(task.key)}
          told={told}
          finish={finish}
          back={() => {
            setTold('');
            work(undone);
          }}
          canUndo={bench.done.length > 0}
        />
      ) : (
        <div class="card">
          <h2>All is done</h2>
          <p class="words">Wash everything that touched lye or batter with the gloves still on.</p>
          <button type="button" onClick={() => work(undone)}>
            Undo the last
          </button>
        </div>
      )}
      <Corrections list={now.corrections} />
      <Changes list={now.changes} />
      <details class="more">
        <summary>All the work</summary>
        <ol class="all">
          {list.map((one, index) => (
            <li key={one.key} class={bench.done.includes(one.key) ? 'done' : ''}>
              <button type="button" onClick={() => go(index)} aria-current={index === at ? 'step' : undefined}>
                {one.title}
                {one.weigh && ` · ${local(one.weigh.mass)}`}
              </button>
            </li>
          ))}
        </ol>
      </details>
      <Safety look={look} />
      <div class="actions">
        <button
          type="button"
          onClick={() => {
            if (confirm('Clear the bench? What was ticked and entered for this batch is forgotten.')) work(() => emptyBench());
          }}
        >
          Clear the bench
        </button>
      </div>
    </section>
  );
}

/** The bench without what was done last. */
function undone(bench: BenchState): BenchState {
  const last = bench.done[bench.done.length - 1];
  if (last === undefined) return { ...bench, at: '' };
  return {
    ...bench,
    done: bench.done.slice(0, -1),
    log: bench.log.filter((entry) => entry.key !== last),
    at: '',
  };
}

/** What is reported of a task when so much went in, or the scale shows so much. */
function reported(task: Task, mass: string): BatchEvent[] {
  const due = task.due;
  if (!due) return [];
  if ('reads' in due) return [{ reads: due.reads.jug, mass }];
  const { item, vessel } = due.weighed;
  return [{ weighed: item, mass, ...(vessel === null ? {} : { in: vessel }) }];
}

interface CardProps {
  task: Task;
  recipe: Recipe;
  now: Followed;
  done: boolean;
  told: string;
  finish: (events: readonly BatchEvent[]) => void;
  back: () => void;
  canUndo: boolean;
}

function Card({ task, recipe, now, done, told, finish, back, canUndo }: CardProps) {
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
  const skip = () => {
    const due = task.due;
    if (!due) return finish([]);
    if ('reads' in due) return layer && finish([{ skipped: layer.name }]);
    const { item, vessel } = due.weighed;
    finish([{ skipped: item, ...(vessel === null ? {} : { in: vessel }) }]);
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
            <div class="field real">
              <label for="real">{pours ? 'What the scale shows after it, if not that' : 'What really went in, if not that'}</label>
              <span class={`box${wrong || told ? ' wrong' : ''}`}>
                <input
                  id="real"
                  type="text"
                  inputMode="decimal"
                  autocomplete="off"
                  value={typed}
                  placeholder={local(quantityNumber(planned))}
                  onInput={(event) => {
                    setTyped(event.currentTarget.value);
                    setWrong('');
                  }}
                />
                <span class="unit">{unit}</span>
              </span>
            </div>
          )
        )}
        {(wrong || told) && (
          <p class="told" role="alert">
            {wrong || told}
          </p>
        )}
        {!done && task.due && (
          <details>
            <summary>Something else happened</summary>
            <button type="button" onClick={skip}>
              {pours ? 'This layer is left out' : 'It was left out'}
            </button>
          </details>
        )}
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
  const warm = useWarm(recipe);
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

/** A mass as the unit of the field has it, without its unit. */
function quantityNumber(mass: string): string {
  if (mass === '') return '';
  const unit = massUnit();
  return unitOf(mass) === unit ? mass.slice(0, mass.length - unit.length).trim() : quantity(mass, unit).split('\u202f')[0]!;
}

function Changes({ list }: { list: readonly Change[] }) {
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

function Corrections({ list }: { list: readonly Correction[] }) {
  const wrong = list.filter((one) => one.remedy !== 'nothing');
  // Where nothing is to be put right, but what is not known of fats, alkali and scales may still leave alkali over.
  const unsure = list.filter((one) => one.remedy === 'nothing' && one.safe.length > 0);
  return (
    <>
      {wrong.length > 0 && (
        <section class="corrections" role="alert">
          {wrong.map((one) => (
            <Wrong key={one.place} of={one} />
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

function Wrong({ of }: { of: Correction }) {
  return (
    <div class="wrong-batch">
      <h3>
        {of.place}: superfat {percent(of.superfat)}, planned {percent(of.aimed)}
      </h3>
      {typeof of.remedy === 'object' && 'additions' in of.remedy && (
        <p>
          To put it right, add {of.remedy.additions.additions.map((add) => `${local(add.mass)} of ${add.name}`).join(' and ')}:
          superfat {percent(of.remedy.additions.superfat)} then.
        </p>
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

const MINUTES = [1, 5, 10, 15, 30, 60];

/** A timer that goes on while the page is closed. */
function Timer({ of }: { of: string }) {
  const timer = kept().bench.timers[of];
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    if (!timer) return;
    setNow(Date.now());
    const tick = setInterval(() => setNow(Date.now()), 500);
    return () => clearInterval(tick);
  }, [timer]);
  const left = timer ? Math.ceil((timer.ends - now) / 1000) : 0;
  const over = timer !== undefined && left <= 0;
  useEffect(() => {
    if (over) navigator.vibrate?.([200, 100, 200]);
  }, [over]);
  const start = (minutes: number) =>
    work((bench) => ({ ...bench, timers: { ...bench.timers, [of]: { ends: Date.now() + minutes * 60_000, minutes } } }));
  const clock = (seconds: number) =>
    `${Math.floor(Math.abs(seconds) / 60)}:${String(Math.abs(seconds) % 60).padStart(2, '0')}`;
  return (
    <div class="timer">
      {timer && (
        <p class={over ? 'clock over' : 'clock'} role="timer">
          {over ? `over for ${clock(left)}` : clock(left)}
        </p>
      )}
      {over && (
        <p class="unseen" role="alert">
          The time is over.
        </p>
      )}
      <div class="minutes" role="group" aria-label="Set a timer">
        {MINUTES.map((minutes) => (
          <button key={minutes} type="button" onClick={() => start(minutes)}>
            {minutes} min
          </button>
        ))}
      </div>
    </div>
  );
}

/** Keeps the screen awake while the work goes on. */
function useAwake(on: boolean): void {
  useEffect(() => {
    if (!on || !('wakeLock' in navigator)) return;
    let lock: WakeLockSentinel | undefined;
    let gone = false;
    const ask = () => {
      if (document.visibilityState !== 'visible') return;
      navigator.wakeLock.request('screen').then(
        (got) => {
          if (gone) void got.release();
          else lock = got;
        },
        () => undefined,
      );
    };
    ask();
    document.addEventListener('visibilitychange', ask);
    return () => {
      gone = true;
      document.removeEventListener('visibilitychange', ask);
      void lock?.release();
    };
  }, [on]);
}
