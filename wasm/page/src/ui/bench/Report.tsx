// Something beside the steps happened: what, how much, where. What cannot have happened is told at its field.
import { useMemo, useState } from 'preact/hooks';
import type { BatchEvent, Followed, Problem, Task } from '../../lamella';
import { fieldUnit, local, take, type Kind as FieldKind } from '../../units';
import { Choice, Search, Switch, Text } from '../Field';
import { Over } from '../Parts';
import { Amount } from './Amount';
import { skipped } from './followed';
import { addable, goesIntoLye, told, vesselName, wrongAt } from './words';

const KINDS = [
  ['added', 'More went in'],
  ['temperature', 'A temperature was taken'],
  ['left', 'Some stays behind'],
  ['poured', 'A layer was poured'],
  ['found', 'The alkali is not as planned'],
  ['note', 'A note'],
] as const;
type Kind = (typeof KINDS)[number][0];

export interface ReportProps {
  now: Followed;
  task: Task | undefined;
  /** Keys of what is done. */
  done: readonly string[];
  /** Puts events into the log; what keeps them from it comes back. A key when they are what a task asks for. */
  report: (events: readonly BatchEvent[], key?: string) => readonly Problem[];
  onClose: () => void;
}

export function Report(props: ReportProps) {
  const { now, task, report, onClose } = props;
  const [kind, setKind] = useState<Kind | undefined>();
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const layer = task?.layer == null ? undefined : now.plan.layers[task.layer]?.name;
  const hand = (events: readonly BatchEvent[], key?: string) => {
    const wrong = report(events, key);
    setProblems(wrong);
    if (wrong.length === 0) onClose();
  };
  const form = { ...props, problems, hand };
  return (
    <Over title={KINDS.find(([one]) => one === kind)?.[1] ?? 'What else happened?'} onClose={onClose}>
      {kind === undefined && (
        <div class="kinds">
          {KINDS.map(([one, label]) => (
            <button key={one} type="button" onClick={() => (setProblems([]), setKind(one))}>
              {label}
            </button>
          ))}
          {task?.due && !props.done.includes(task.key) && (
            <button type="button" onClick={() => hand(skipped(task, layer), task.key)}>
              {'reads' in task.due ? 'This layer is left out' : `${task.title}: left out`}
            </button>
          )}
        </div>
      )}
      {kind === 'added' && <Added {...form} />}
      {kind === 'temperature' && <Temperature {...form} />}
      {kind === 'left' && <Left {...form} />}
      {kind === 'poured' && <Poured {...form} />}
      {kind === 'found' && <Found {...form} />}
      {kind === 'note' && <Note {...form} />}
      {kind === undefined && problems.length > 0 && (
        <p class="told" role="alert">
          {told(problems)}
        </p>
      )}
    </Over>
  );
}

type FormProps = ReportProps & {
  problems: readonly Problem[];
  hand: (events: readonly BatchEvent[], key?: string) => void;
};

/** A form with the button that hands it in, and what is wrong beside its fields. */
function Form(props: { children: preact.ComponentChildren; wrong: string; onHand: () => void; ready?: boolean }) {
  return (
    <form
      class="report"
      onSubmit={(event) => {
        event.preventDefault();
        props.onHand();
      }}
    >
      {props.children}
      {props.wrong && (
        <p class="told" role="alert">
          {props.wrong}
        </p>
      )}
      <button type="submit" class="big" disabled={props.ready === false}>
        Put it into the log
      </button>
    </form>
  );
}

/** A figure that is typed, and understood when it is handed in. */
function useFigure(kind: FieldKind) {
  const [text, setText] = useState('');
  const [wrong, setWrong] = useState('');
  const unit = fieldUnit(kind, '');
  return {
    unit,
    text,
    wrong,
    onText: (typed: string) => {
      setText(typed);
      setWrong('');
    },
    /** The figure as the log carries it; nothing when it is wrong, or missing where it must be there. */
    read(optional = false): { value: string | undefined } | undefined {
      if (text.trim() === '' && optional) return { value: undefined };
      if (text.trim() === '') return void setWrong('A number is missing here.');
      const taken = take(text, unit);
      if ('value' in taken) return taken;
      setWrong(taken.wrong);
      return undefined;
    },
  };
}

function Added({ now, task, problems, hand }: FormProps) {
  const { plan } = now;
  const [item, setItem] = useState('');
  const [vessel, setVessel] = useState(task?.jug == null ? '' : (plan.jugs[task.jug]?.name ?? ''));
  const mass = useFigure('mass');
  const options = useMemo(() => addable(plan), [plan]);
  const chosen = options.find((one) => one.key === item);
  const whole = chosen === undefined ? 'the pot or the lye' : vesselName(goesIntoLye(plan, item) ? 'lye' : 'pot');
  return (
    <Form
      wrong={wrongAt(problems, 'added', 'in', '')}
      ready={chosen !== undefined}
      onHand={() => {
        const read = mass.read();
        if (read) hand([{ added: item, mass: read.value, ...(vessel === '' ? {} : { in: vessel }) }]);
      }}
    >
      {chosen ? (
        <p class="chosen">
          <strong>{chosen.name}</strong>
          <button type="button" onClick={() => setItem('')}>
            Something else
          </button>
        </p>
      ) : (
        <Search label="What" options={options} onPick={(option) => setItem(option.key)} />
      )}
      <Choice
        label="Into"
        value={vessel}
        options={[['', whole], ...plan.jugs.map((jug) => [jug.name, jug.name] as const)]}
        onValue={setVessel}
      />
      <Amount label="How much more" {...mass} wrong={mass.wrong || wrongAt(problems, 'mass')} />
    </Form>
  );
}

function Temperature({ task, problems, hand }: FormProps) {
  const [of, setOf] = useState<'fats' | 'lye'>(task?.key === 'melt' ? 'fats' : 'lye');
  const degrees = useFigure('temperature');
  return (
    <Form
      wrong={wrongAt(problems, 'of', '')}
      onHand={() => {
        const read = degrees.read();
        if (read) hand([{ temperature: read.value, of }]);
      }}
    >
      <Switch label="Of" value={of} options={[['lye', 'the lye'], ['fats', 'the fats']]} onValue={setOf} />
      <Amount label="It is" {...degrees} wrong={degrees.wrong || wrongAt(problems, 'temperature')} />
    </Form>
  );
}

function Left({ now, task, problems, hand }: FormProps) {
  const { jugs } = now.plan;
  const [vessel, setVessel] = useState(task?.jug == null ? 'pot' : (jugs[task.jug]?.name ?? 'pot'));
  const mass = useFigure('mass');
  return (
    <Form
      wrong={wrongAt(problems, 'left', '')}
      onHand={() => {
        const read = mass.read();
        if (read) hand([{ left: vessel, mass: read.value }]);
      }}
    >
      <Choice
        label="In"
        value={vessel}
        options={['pot', 'lye', ...jugs.map((jug) => jug.name)].map((name) => [name, vesselName(name)] as const)}
        onValue={setVessel}
      />
      <Amount label="How much stays in it" {...mass} wrong={mass.wrong || wrongAt(problems, 'mass')} />
    </Form>
  );
}

function Poured({ now, done, problems, hand }: FormProps) {
  const { layers } = now.plan;
  const pours = now.tasks.filter((task) => task.work === 'pour' && !done.includes(task.key));
  const open = pours.flatMap((task) => (task.layer === null ? [] : [{ key: task.key, name: layers[task.layer]?.name ?? '' }]));
  const [layer, setLayer] = useState(open[0]?.name ?? '');
  const mass = useFigure('mass');
  if (open.length === 0) return <p>Every layer is poured.</p>;
  return (
    <Form
      wrong={wrongAt(problems, 'poured', '')}
      onHand={() => {
        const read = mass.read();
        if (read) hand([{ poured: layer, mass: read.value }], open.find((one) => one.name === layer)?.key);
      }}
    >
      <Choice label="Which" value={layer} options={open.map(({ name }) => [name, name] as const)} onValue={setLayer} />
      <Amount label="How much was poured" {...mass} wrong={mass.wrong || wrongAt(problems, 'mass')} />
    </Form>
  );
}

function Found({ now, problems, hand }: FormProps) {
  const { alkalis } = now.plan.lye;
  const known = alkalis.flatMap(({ id, name }) => (id === 'naoh' || id === 'koh' ? [{ id, name } as const] : []));
  const [which, setWhich] = useState<'naoh' | 'koh'>(known[0]?.id ?? 'naoh');
  const [is, setIs] = useState<'naoh' | 'koh'>(which);
  const purity = useFigure('share');
  return (
    <Form
      wrong={wrongAt(problems, 'found', 'is', '')}
      onHand={() => {
        const read = purity.read(is !== which);
        if (read) {
          const pure = read.value === undefined ? {} : { purity: read.value };
          hand([{ found: which, ...(is === which ? {} : { is }), ...pure }]);
        }
      }}
    >
      {known.length > 1 && (
        <Choice
          label="Which"
          value={which}
          options={known.map(({ id, name }) => [id, name] as const)}
          onValue={(id) => {
            setWhich(id);
            setIs(id);
          }}
        />
      )}
      <Switch
        label="It really is"
        value={is}
        options={[['naoh', 'sodium hydroxide'], ['koh', 'potassium hydroxide']]}
        onValue={setIs}
      />
      <Amount label="Its purity" {...purity} wrong={purity.wrong || wrongAt(problems, 'purity')} placeholder={local('98.5')} />
      {is !== which && <p class="faint">Without a purity it is reckoned as that alkali usually is.</p>}
    </Form>
  );
}

function Note({ problems, hand }: FormProps) {
  const [note, setNote] = useState('');
  return (
    <Form wrong={wrongAt(problems, 'note', '')} ready={note.trim() !== ''} onHand={() => hand([{ note: note.trim() }])}>
      <Text long label="What was seen or done" value={note} onValue={setNote} />
    </Form>
  );
}
