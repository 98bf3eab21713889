// The page: the bar as the way around, and what is looked at beside it.
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Explanation, Problem } from '../lamella';
import { canRedo, canUndo, kept, looked, lookOfBench, put, redo, undo, useStore, type Look, type Mode, type Place, type State } from '../store';
import { length, mass, percent, temperature } from '../units';
import { Bar } from './Bar';
import { Shown } from './Shown';
import { Bench } from './Bench';
import { After } from './After';
import { Boundary } from './Boundary';
import { Messages } from './Messages';
import { Recipes } from './Recipes';
import { Settings } from './Settings';
import { Batch } from './panels/Batch';
import { Fats } from './panels/Fats';
import { addLayer, Layer } from './panels/Layer';
import { Lye } from './panels/Lye';
import { Mould } from './panels/Mould';
import { MayBe } from './panels/Superfat';
import { Workshop } from './panels/Workshop';
import { Safety } from './Safety';
import { Behind, Cautions, Explained, Figure, InHand, Problems } from './Parts';
import { saveRecipe, useDrop } from '../files';
import { viewOf } from '../views';

const MODES: readonly (readonly [Mode, string])[] = [
  ['plan', 'Plan'],
  ['bench', 'At the bench'],
  ['after', 'Afterwards'],
  ['recipes', 'Recipes'],
];

export function App() {
  const state = useStore();
  const [behind, setBehind] = useState<Explanation | undefined>();
  const [settings, setSettings] = useState(false);
  const dropping = useDrop();
  const look = looked();
  // What lies on the bench is not kept from it by what is wrong at the desk.
  const under = 'plan' in look ? look : lookOfBench();
  useEffect(() => {
    const key = (event: KeyboardEvent) => {
      const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
      if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z' || typing) return;
      event.preventDefault();
      if (event.shiftKey) redo();
      else undo();
    };
    addEventListener('keydown', key);
    return () => removeEventListener('keydown', key);
  }, []);
  useEffect(() => {
    const root = document.documentElement;
    if (state.theme) root.dataset.theme = state.theme;
    else delete root.dataset.theme;
  }, [state.theme]);
  const name = 'plan' in look ? look.recipe.name : state.shelf.find((one) => one.id === state.current)?.recipe.name;
  useEffect(() => {
    document.title = name ? `${name} · Lamella` : 'Lamella';
  }, [name]);
  return (
    <Behind.Provider value={setBehind}>
      <InHand.Provider value={'plan' in look ? look.recipe : undefined}>
        <a class="skip" href="#main">
          To the recipe
        </a>
        <header class="top">
          <p class="mark">
            <svg viewBox="0 0 24 24" aria-hidden="true">
              <path d="M3 5h18v3H3zM3 9.5h18v1.6H3zM3 12.6h18v6.4H3z" />
            </svg>
            <span>Lamella</span>
          </p>
          <nav aria-label="Parts of the job">
            {MODES.map(([mode, label]) => (
              <button
                key={mode}
                type="button"
                class={state.mode === mode ? 'here' : ''}
                aria-current={state.mode === mode ? 'page' : undefined}
                onClick={() => put({ mode, notice: '' })}
              >
                {label}
              </button>
            ))}
          </nav>
          <button type="button" class="settings" onClick={() => setSettings(true)}>
            Units
          </button>
        </header>
        <p class="notice" role="status" aria-live="polite">
          {state.notice}
        </p>
        <Messages state={state} />
        <main id="main" class={`mode-${state.mode}`}>
          <Boundary of={JSON.stringify(viewOf(state))}>
            {state.mode === 'recipes' ? (
              <Recipes state={state} />
            ) : state.mode === 'bench' && under ? (
              <Bench look={under} />
            ) : !('plan' in look) ? (
              <Broken problems={look.problems} />
            ) : state.mode === 'after' ? (
              <After look={look} />
            ) : (
              <PlanView look={look} state={state} />
            )}
          </Boundary>
        </main>
        {behind && <Explained of={behind} onClose={() => setBehind(undefined)} />}
        {settings && <Settings state={state} onClose={() => setSettings(false)} />}
        {dropping && (
          <div class="dropping" aria-hidden="true">
            Let go to open the recipe
          </div>
        )}
      </InHand.Provider>
    </Behind.Provider>
  );
}

function Broken({ problems }: { problems: readonly Problem[] }) {
  return (
    <section class="panel">
      <h1>This recipe cannot be planned as it stands</h1>
      <Problems list={problems} />
      <div class="actions">
        <button type="button" onClick={undo} disabled={!canUndo()}>
          Undo
        </button>
        <button type="button" onClick={() => saveRecipe(kept().recipe)}>
          Save it as a file
        </button>
        <button type="button" onClick={() => put({ mode: 'recipes' })}>
          Another recipe
        </button>
      </div>
    </section>
  );
}

const useNarrow = () => {
  const query = useMemo(() => matchMedia('(max-width: 859px)'), []);
  const [narrow, setNarrow] = useState(query.matches);
  useEffect(() => {
    const change = () => setNarrow(query.matches);
    query.addEventListener('change', change);
    return () => query.removeEventListener('change', change);
  }, [query]);
  return narrow;
};

const THINGS: readonly (readonly [Exclude<Place['at'], 'bar' | 'layer'>, string])[] = [
  ['fats', 'Fats'],
  ['lye', 'Lye'],
  ['mould', 'Mould, size'],
  ['workshop', 'Workshop'],
  ['batch', 'Batch, cautions'],
];

function PlanView({ look, state }: { look: Look; state: State }) {
  const narrow = useNarrow();
  const { place } = state;
  const beside = useRef<HTMLDivElement>(null);
  const mould = look.recipe.moulds && state.mould < look.recipe.moulds.length ? state.mould : 0;
  const index = place.at === 'layer' ? Math.min(place.index, look.recipe.layers.length - 1) : -1;
  const shown = index >= 0 ? `layer ${index}` : place.at;
  useEffect(() => {
    if (narrow) scrollTo({ top: 0 });
  }, [shown, narrow]);
  const panel =
    place.at === 'layer' ? (
      <Layer key={`layer${index}`} look={look} index={index} />
    ) : place.at === 'fats' ? (
      <Fats look={look} />
    ) : place.at === 'lye' ? (
      <Lye look={look} />
    ) : place.at === 'mould' ? (
      <Mould look={look} mould={mould} part={place.part} />
    ) : place.at === 'workshop' ? (
      <Workshop look={look} />
    ) : place.at === 'batch' ? (
      <Batch look={look} />
    ) : narrow ? null : (
      <Batch look={look} />
    );
  const trouble = look.problems.length > 0 && (
    <div class="trouble" role="alert">
      <p>
        The picture shows the last plan that worked out:{' '}
        {look.problems[0]!.message}
        {look.problems.length > 1 && ` (and ${look.problems.length - 1} more)`}
      </p>
      <button type="button" onClick={undo} disabled={!canUndo()}>
        Undo
      </button>
    </div>
  );
  if (narrow && panel) {
    return (
      <div class="plan narrow">
        <div class="rail">
          <button type="button" class="back" onClick={() => put({ place: { at: 'bar' } })}>
            <span aria-hidden="true">‹</span> Bar
          </button>
          <Bar look={look} place={place} mould={mould} core />
        </div>
        <div class="beside" ref={beside}>
          {trouble}
          {panel}
        </div>
      </div>
    );
  }
  return (
    <div class="plan">
      <section class="picture" aria-label="The bar">
        <h1>
          <button type="button" class="naming" onClick={() => put({ place: { at: 'batch' } })} title="Name, note, purpose">
            {look.recipe.name}
          </button>
        </h1>
        <Shown look={look} place={place} mould={mould} />
        <MayBe look={look} />
        <nav class="shelf" aria-label="What the bar is made with">
          {THINGS.map(([at, label]) => (
            <button
              key={at}
              type="button"
              class={place.at === at ? 'here' : ''}
              aria-pressed={place.at === at}
              onClick={() => put({ place: { at } })}
            >
              <span class="name">{label}</span>
              <span class="note">{noteOf(at, look)}</span>
            </button>
          ))}
        </nav>
        <div class="figures">
          <Figure of="superfat" name="superfat, all">
            {percent(look.plan.batch.superfat)}
          </Figure>
          <Figure of="poured" name="poured">
            {mass(look.plan.batch.poured)}
          </Figure>
          <Figure of="cured" name="cured">
            {mass(look.plan.batch.cured.total)}
          </Figure>
          {look.plan.batch.bars && (
            <Figure of="cured" name={`${look.plan.batch.bars.count} bars of`}>
              {mass(look.plan.batch.bars.cured)}
            </Figure>
          )}
        </div>
        <div class="actions">
          <button type="button" onClick={undo} disabled={!canUndo()}>
            Undo
          </button>
          <button type="button" onClick={redo} disabled={!canRedo()}>
            Redo
          </button>
          <button type="button" onClick={() => addLayer(look.recipe.layers.length)}>
            Add a layer on top
          </button>
          <button type="button" class="go" onClick={() => put({ mode: 'bench' })}>
            Make it
          </button>
        </div>
        <Safety look={look} />
        {narrow && <Cautions placed list={look.plan.cautions} />}
      </section>
      {!narrow && (
        <div class="beside" ref={beside}>
          {trouble}
          {panel}
        </div>
      )}
      {narrow && trouble}
    </div>
  );
}

function noteOf(at: string, look: Look): string {
  const { plan } = look;
  switch (at) {
    case 'fats':
      return mass(plan.batch.fat);
    case 'lye':
      return percent(plan.lye.figures.concentration);
    case 'mould':
      return plan.moulds[0] ? `to ${length(plan.moulds[0].fill)}` : 'none';
    case 'workshop':
      return `${temperature(plan.temperatures.fats)}, ${temperature(plan.temperatures.lye)}`;
    default:
      return plan.cautions.length === 0 ? 'nothing' : `${plan.cautions.length} to see`;
  }
}
