// At the bench: one thing at a time, large, with gloves on. What the scale really showed goes into the log of the batch,
// and the rest of the plan follows from it.
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { BatchEvent, Problem, Recipe } from '../lamella';
import { emptyBench, type BenchState } from '../bench-state';
import { get, kept, put, work, type Look, type Paper } from '../store';
import { local } from '../units';
import { capital, sentence } from './Parts';
import { Held } from './Held';
import { Safety } from './Safety';
import { Card, Else } from './bench/Card';
import { Changes, Corrections } from './bench/Corrections';
import { Log } from './bench/Log';
import { Report } from './bench/Report';
import { keepLog } from './after/record/whole';
import { useAwake } from './bench/awake';
import { countDone, followed, reportKey, undone, withEvents } from './bench/followed';
import { told as wordsOf, words } from './bench/words';

const AFTERWARDS: readonly (readonly [Paper, string])[] = [
  ['record', 'Write the record'],
  ['cure', 'Weigh the bars'],
  ['label', 'The label'],
];

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
  const [asked, setAsked] = useState(false);
  const [said, setSaid] = useState('');
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
        <div class="actions">
          <Clear look={look} bench={bench} />
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
    setSaid('');
    if (next) work((old) => ({ ...old, at: next.key }));
  };
  const finish = (events: readonly BatchEvent[]) => {
    if (!task) return;
    const next = withEvents(recipe, bench, task.key, events);
    setSaid('');
    if (!('log' in next)) return setTold(wordsOf(next));
    setTold('');
    work(() => ({ ...next, at: '' }));
  };
  /** Puts into the log what no step asks for; the step that is looked at stays, unless it was that. */
  const report = (events: readonly BatchEvent[], key?: string): readonly Problem[] => {
    const next = withEvents(recipe, bench, key ?? reportKey(), events);
    if (!('log' in next)) return next;
    setTold('');
    setSaid(`In the log: ${events.map((event) => capital(words(event, now.plan))).join('; ')}`);
    work(() => (key === undefined ? next : { ...next, at: '' }));
    return [];
  };
  const done = countDone(bench, list);
  const onHold = (now.plan.holds ?? []).map((hold) => hold.layer).join(', ');
  const back = () => {
    setTold('');
    setSaid('');
    work(undone);
  };
  return (
    <section class="bench">
      <header class="way">
        <h1>{recipe.name}</h1>
        <p>
          {done} of {list.length} done
        </p>
        <progress value={done} max={list.length} aria-label="Done" />
      </header>
      <Held holds={now.plan.holds} report={report} />
      {task ? (
        <Card
          key={`${task.key}${task.weigh?.mass ?? ''}`}
          task={task}
          recipe={recipe}
          now={now}
          done={bench.done.includes(task.key)}
          told={told}
          finish={finish}
          back={back}
          canUndo={bench.done.length > 0}
          onElse={() => setAsked(true)}
        />
      ) : (
        <div class="card">
          <h2>{onHold ? 'Poured, and on hold' : 'All is done'}</h2>
          <p class="words">
            Wash everything that touched lye or batter with the gloves still on. Cut the block with gloves on too, and weigh a bar
            every week.{' '}
            {onHold
              ? `Keep the bars with ${onHold} apart and marked. They get no label until a test of that layer is recorded.`
              : 'Have the free alkali of each layer tested before bars are used or sold, and label what is cured.'}
          </p>
          <div class="actions">
            {AFTERWARDS.map(([paper, label]) => (
              <button key={paper} type="button" onClick={() => put({ mode: 'after', paper })}>
                {label}
              </button>
            ))}
          </div>
          <Else onElse={() => setAsked(true)} />
          <button type="button" onClick={back}>
            Undo the last
          </button>
        </div>
      )}
      <div role="status">{said && <p class="said">{said}</p>}</div>
      <Corrections list={now.corrections} report={report} />
      <Changes list={now.changes} />
      <Log recipe={recipe} bench={bench} plan={now.plan} />
      {asked && <Report now={now} task={task} done={bench.done} report={report} onClose={() => setAsked(false)} />}
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
        <Clear look={look} bench={bench} />
      </div>
    </section>
  );
}

function Clear({ look, bench }: { look: Look; bench: BenchState }) {
  return (
    <button
      type="button"
      onClick={() => {
        if (!confirm('Clear the bench? What was ticked is forgotten. The batch record keeps what it has from the bench; a weighing without a lot is not in it.')) return;
        keepLog(look, bench);
        work(() => emptyBench());
      }}
    >
      Clear the bench
    </button>
  );
}
