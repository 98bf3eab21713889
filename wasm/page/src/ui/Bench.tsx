// At the bench: one thing at a time, large, with gloves on. What the scale really showed goes into the log of the batch,
// and the rest of the plan follows from it.
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { BatchEvent, Recipe } from '../lamella';
import { emptyBench, type BenchState } from '../bench-state';
import { get, kept, work, type Look } from '../store';
import { local } from '../units';
import { sentence } from './Parts';
import { Safety } from './Safety';
import { Card } from './bench/Card';
import { Changes, Corrections } from './bench/Corrections';
import { useAwake } from './bench/awake';
import { followed, undone } from './bench/followed';

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
  const now = useMemo(() => followed(recipe, bench.log.map((entry) => entry.event)), [recipe, bench.log, get().units]);
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
