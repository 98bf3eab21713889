// A cured bar tried at the basin: words, and figures that a glass, a ruler, a scale and a pH meter give.
import { useMemo } from 'preact/hooks';
import { trialPage, type Problem, type Trial as TrialDocument } from '../../lamella';
import { get, papers, put, type Look } from '../../store';
import { typedDate } from '../../units';
import { Quantity, Text } from '../Field';
import { Actions, change, Made, made } from './paper';

const WORDS = [
  ['by', 'Tried by'],
  ['water', 'The water: from the tap, hard, rain'],
  ['lather', 'The lather'],
  ['feel', 'How the skin feels, at once and later'],
  ['look', 'How the bar looks and smells'],
  ['note', 'Note'],
] as const;

/** What is wrong at a field of the document. */
type Wrong = (pointer: string) => Problem | undefined;

interface PartProps {
  trial: TrialDocument;
  wrong: Wrong;
}

export function Trial({ look }: { look: Look }) {
  const { trial } = papers();
  const { usual } = get();
  const page = useMemo(() => made(() => trialPage(whole(trial), usual)), [trial, usual]);
  const problems = 'blocks' in page ? [] : page;
  const wrong: Wrong = (pointer) => problems.find((one) => one.pointer === pointer);
  return (
    <>
      <div class="panel no-print">
        <Basin trial={trial} wrong={wrong} />
        <h3>Foam in a shaken glass</h3>
        <Foam trial={trial} wrong={wrong} />
        <h3>Washes, each the same</h3>
        <Washes trial={trial} wrong={wrong} />
        <h3>pH of a solution</h3>
        <Ph trial={trial} wrong={wrong} />
        <p class="faint">
          A pH meter on clear solution tells more than a strip. No pH says that a bar is safe: free alkali does, and that is
          titrated.
        </p>
        <Usual trial={trial} name={look.recipe.name} usual={usual} />
      </div>
      <Actions />
      <Made page={page} />
    </>
  );
}

/** The trial without what is still being entered: washes have a mass before and one after. */
export const whole = (trial: TrialDocument): TrialDocument =>
  trial.washes && !(trial.washes.before && trial.washes.after) ? { ...trial, washes: undefined } : trial;

/** The trial where more than its batch was entered. */
export const entered = (trial: TrialDocument): TrialDocument | undefined =>
  Object.entries(trial).some(([field, value]) => field !== 'lamella' && field !== 'batch' && value !== undefined) ? whole(trial) : undefined;

function Basin({ trial, wrong }: PartProps) {
  return (
    <div class="grid">
      <Text label="Batch" value={trial.batch} onValue={(value) => change(['trial', 'batch'], value || '1')} />
      <label class="field">
        <span class="label-text">Tried on</span>
        <input type="date" value={trial.on ?? ''} max={typedDate(new Date())} onInput={(event) => change(['trial', 'on'], event.currentTarget.value || undefined)} />
      </label>
      <Quantity
        label="Age of the bar, days"
        problem={wrong('/age')}
        kind="number"
        optional
        value={trial.age?.replace(/ d$/, '') ?? ''}
        onValue={(value) => change(['trial', 'age'], value === undefined ? undefined : `${value} d`)}
      />
      <Quantity label="Warmth of the water" problem={wrong('/temperature')} kind="temperature" optional value={trial.temperature ?? ''} onValue={(value) => change(['trial', 'temperature'], value)} />
      {WORDS.map(([field, label]) => (
        <Text key={field} label={label} value={trial[field] ?? ''} onValue={(value) => change(['trial', field], value || undefined)} />
      ))}
    </div>
  );
}

function Foam({ trial: { foam }, wrong }: PartProps) {
  return (
    <div class="grid">
      <Quantity
        label="How high it stands at once"
        problem={wrong('/foam/height')}
        kind="length"
        optional
        value={foam?.height ?? ''}
        hint="the same glass, soap, water and shakes each time"
        onValue={(value) => change(['trial', 'foam'], value === undefined ? undefined : { ...foam, height: value })}
      />
      {foam && (
        <>
          <Quantity
            label="How high it still stands later"
            problem={wrong('/foam/later')}
            kind="length"
            optional
            value={foam.later ?? ''}
            onValue={(value) =>
              change(['trial', 'foam'], value === undefined ? { height: foam.height } : { after: '5 min', ...foam, later: value })
            }
          />
          {foam.later && (
            <Quantity
              label="After how many minutes"
              problem={wrong('/foam/after')}
              kind="number"
              value={foam.after?.replace(/ min$/, '') ?? ''}
              onValue={(value) => change(['trial', 'foam', 'after'], `${value} min`)}
            />
          )}
        </>
      )}
    </div>
  );
}

function Washes({ trial: { washes }, wrong }: PartProps) {
  return (
    <div class="grid">
      <Quantity
        label="How many washes"
        problem={wrong('/washes/count')}
        kind="number"
        optional
        value={washes ? String(washes.count) : ''}
        onValue={(value) => {
          if (value === undefined) change(['trial', 'washes'], undefined);
          else if (/^\d+$/.test(value)) change(['trial', 'washes'], { before: '', after: '', ...washes, count: Number(value) });
        }}
      />
      {washes && (
        <>
          <Quantity label="The bar weighs before" problem={wrong('/washes/before')} kind="mass" value={washes.before} onValue={(value) => change(['trial', 'washes', 'before'], value)} />
          <Quantity label="and after, dried" problem={wrong('/washes/after')} kind="mass" value={washes.after} onValue={(value) => change(['trial', 'washes', 'after'], value)} />
        </>
      )}
    </div>
  );
}

function Ph({ trial: { ph }, wrong }: PartProps) {
  return (
    <div class="grid">
      <Quantity
        label="pH"
        problem={wrong('/ph/value')}
        kind="number"
        optional
        value={ph?.value ?? ''}
        onValue={(value) => change(['trial', 'ph'], value === undefined ? undefined : { solution: '1 %', ...ph, value })}
      />
      {ph && (
        <Quantity label="Soap in the solution" problem={wrong('/ph/solution')} kind="share" value={ph.solution} onValue={(value) => change(['trial', 'ph', 'solution'], value)} />
      )}
    </div>
  );
}

/** The bar that others are held against. */
function Usual({ trial, usual, name }: { trial: TrialDocument; usual: TrialDocument | undefined; name: string }) {
  return (
    <div class="actions">
      {usual ? (
        <>
          <p class="faint">Held against the usual bar, {usual.batch}.</p>
          <button type="button" onClick={() => put({ usual: undefined })}>
            Leave that out
          </button>
        </>
      ) : (
        <p class="faint">With a usual bar to hold it against, both stand side by side.</p>
      )}
      <button type="button" onClick={() => put({ usual: { ...whole(trial), batch: `${trial.batch}, ${name}` } })}>
        This is the usual bar
      </button>
    </div>
  );
}
