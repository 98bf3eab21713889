// At the bench: one thing at a time, large, with gloves on.
import { useEffect, useMemo, useState } from 'preact/hooks';
import { tasks } from '../lamella';
import type { Task } from '../lamella';
import { emptyBench } from '../bench-state';
import { kept, work, type Look } from '../store';
import { weighed } from '../units';
import { Safety } from './App';

const TIMED = new Set(['wait', 'rest', 'cook', 'make-lye']);

export function Bench({ look }: { look: Look }) {
  const bench = kept().bench;
  const list = useMemo(() => tasks(look.recipe), [look.recipe]);
  useAwake(bench.begun > 0);
  if (bench.begun === 0) {
    return (
      <section class="bench begin">
        <h1>{look.recipe.name}</h1>
        <p>
          {list.length} things to do, one at a time. What is done is kept, also when the page is closed.
        </p>
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
  const at = Math.max(
    0,
    bench.at ? list.findIndex((task) => task.key === bench.at) : list.findIndex((task) => !bench.done.includes(task.key)),
  );
  const finished = list.every((task) => bench.done.includes(task.key));
  const task = list[at];
  const go = (to: number) => {
    const next = list[to];
    if (next) work((now) => ({ ...now, at: next.key }));
  };
  const done = () => {
    if (!task) return;
    work((now) => ({
      ...now,
      done: now.done.includes(task.key) ? now.done : [...now.done, task.key],
      at: list[at + 1]?.key ?? '',
    }));
  };
  return (
    <section class="bench">
      <header class="way">
        <h1>{look.recipe.name}</h1>
        <p>
          {at + 1} of {list.length}
        </p>
        <progress value={bench.done.length} max={list.length} aria-label="Done" />
      </header>
      {finished && !bench.at ? (
        <div class="card">
          <h2>All is done</h2>
          <p>Wash everything that touched lye or batter with the gloves still on.</p>
        </div>
      ) : (
        task && <Card key={task.key} task={task} look={look} done={bench.done.includes(task.key)} />
      )}
      <div class="steps">
        <button type="button" class="big quiet" onClick={() => go(at - 1)} disabled={at === 0}>
          Back
        </button>
        <button type="button" class="big" onClick={done} disabled={finished && !bench.at}>
          Done
        </button>
      </div>
      <details class="more">
        <summary>All the work</summary>
        <ol class="all">
          {list.map((one, index) => (
            <li key={one.key} class={bench.done.includes(one.key) ? 'done' : ''}>
              <button type="button" onClick={() => go(index)} aria-current={index === at ? 'step' : undefined}>
                {one.title}
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

function Card({ task, look, done }: { task: Task; look: Look; done: boolean }) {
  const { plan } = look;
  const weigh = task.weigh;
  const scale = weigh ? plan.scales[weigh.scale] : undefined;
  const layer = task.layer === null ? undefined : plan.layers[task.layer];
  return (
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
          <p class="amount">{weighed(weigh.mass, scale.step)}</p>
          <p class="into">
            {task.work === 'pour' ? `out of ${weigh.vessel}` : `into ${weigh.vessel}`} · scale “{scale.name}”
          </p>
          {weigh.reading && (
            <p class="reading">
              <span>
                <small>scale shows</small>
                {weighed(weigh.reading.before, scale.step)}
              </span>
              <span aria-hidden="true">→</span>
              <span>
                <small>until it shows</small>
                <strong>{weighed(weigh.reading.after, scale.step)}</strong>
              </span>
            </p>
          )}
        </>
      )}
      {task.words && <p class="words">{task.words}</p>}
      {TIMED.has(task.work) && !weigh && <Timer of={task.key} />}
      {done && <p class="faint">Done.</p>}
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
        <p class={over ? 'clock over' : 'clock'} role="timer" aria-live={over ? 'assertive' : 'off'}>
          {over ? `over for ${clock(left)}` : clock(left)}
        </p>
      )}
      <div class="minutes" role="group" aria-label="Set a timer, minutes">
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
