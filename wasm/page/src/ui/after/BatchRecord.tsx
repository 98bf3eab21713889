// The record of the batch: who, when, from which lots, what the bench reported, what was tested and what came out.
import { useMemo, useState } from 'preact/hooks';
import { LamellaError, recordPage } from '../../lamella';
import type { BatchRecord as Document, Recipe } from '../../lamella';
import { fileName, saveText } from '../../files';
import { asPlanned } from '../../record';
import { get, kept, papers, type Look } from '../../store';
import { local } from '../../units';
import { materialsOf } from '../../weighed-in';
import { followed } from '../bench/followed';
import { sentence } from '../Parts';
import { Actions, change, Made } from './paper';
import { Filling, problemOf, RecordField } from './record/fields';
import { Folded, ListOf } from './record/Lines';
import { Lots, nextRecord } from './record/Lots';
import { AFTER, BESIDE, listsFor, type Shown } from './record/lists';
import { begunAt, made, whole } from './record/whole';

export function BatchRecord({ look }: { look: Look }) {
  const { record, trial } = papers();
  const { usual } = get();
  const { bench } = kept();
  const [told, setTold] = useState('');
  const draft = useMemo(() => begunAt(record, bench), [record, bench.begun]);
  const { recipe, batch } = useMemo(() => made(look, bench), [look.recipe, bench.begun, bench.recipe, bench.log]);
  const plan = useMemo(() => {
    const now = batch && followed(recipe, batch.events ?? []);
    return now && 'plan' in now ? now.plan : look.plan;
  }, [recipe, batch, look.plan]);
  const { own, document, open, page, problems } = useMemo(() => whole(recipe, draft, batch), [recipe, draft, batch, trial, usual]);
  const lists = listsFor(plan, own.lots);
  const others = open.filter((one) => one.code !== 'record.lot-missing' && one.code !== 'record.product');
  const lotless = open.filter((one) => one.code === 'record.lot-missing').length;
  const show = (list: Shown) => <ListOf key={list.of.list} of={list.of} bench={list.bench(own, document)} />;
  const people = draft.operators ?? [];
  return (
    <Filling.Provider value={{ draft, problems }}>
      <div class="panel record no-print">
        <div class="grid">
          <RecordField path={['batch']} label="Batch" />
          <RecordField path={['started']} label="Begun" kind="moment" />
          <RecordField path={['finished']} label="Ended" kind="moment" />
          {[...people, ...(people.length === 0 ? [''] : [])].map((_, index) => (
            <RecordField
              key={index}
              path={['operators', index]}
              label={index === 0 ? 'Made by' : `and by`}
              onValue={(value) => change(['record', 'operators'], people.length === 0 ? [value] : people.map((one, i) => (i === index ? value : one)))}
            />
          ))}
          {people.length > 0 && people.at(-1) !== '' && (
            <button type="button" class="beside-field" onClick={() => change(['record', 'operators'], [...people, ''])}>
              Another person
            </button>
          )}
        </div>
        {document.product !== recipe.name && (
          <p class="told">
            This record is of “{document.product}”, and what stands beside it is “{recipe.name}”.
          </p>
        )}
        <Lots materials={[...materialsOf(plan), plan.lye.water]} />
        {lotless > 0 && (
          <p class="faint">
            {lotless === 1 ? 'One weighing' : `${lotless} weighings`} of the bench {lotless === 1 ? 'has' : 'have'} no lot yet, and{' '}
            {lotless === 1 ? 'comes' : 'come'} in with the lot. Water from the tap has one too: call it “tap”.
          </p>
        )}
        {others.length > 0 && (
          <ul class="problems">
            {others.map((one, index) => (
              <li key={index}>
                {local(sentence(one.message))} <span class="faint">{sentence(one.advice)}</span>
              </li>
            ))}
          </ul>
        )}
        <ListOf of={lists.weighings.of} bench={lists.weighings.bench(own, document)}>
          {!batch && (
            <>
              <p class="faint">What the bench reports comes here by itself. Without it, write down what was weighed, or say that all went as planned.</p>
              <div class="actions">
                <button type="button" disabled={own.lots.length === 0} onClick={() => change(['record', 'weighings'], asPlanned(plan, own.lots))}>
                  All was weighed as planned
                </button>
              </div>
            </>
          )}
        </ListOf>
        {lists.made.map(show)}
        <ListOf of={lists.deviations.of} bench={lists.deviations.bench(own, document)} />
        <h3>What came out</h3>
        <div class="grid">
          <RecordField path={['output', 'bars']} label="Good bars" kind="count" />
          <RecordField path={['output', 'rejected']} label="Bars that were not good" kind="count" />
          <RecordField path={['output', 'mass']} label="The good bars weigh" kind="mass" />
        </div>
        {lists.tested.map(show)}
        {[AFTER, BESIDE].map(({ title, fields }) => (
          <Folded
            key={title}
            title={title}
            count={0}
            wrong={fields.some(([path]) => problemOf(problems, path) !== undefined)}
          >
            <div class="grid">
              {fields.map(([path, label, kind]) => (
                <RecordField key={path.join()} path={path} label={label} {...(kind ? { kind } : {})} />
              ))}
            </div>
          </Folded>
        ))}
        {told && (
          <p class="told" role="alert">
            {told}
          </p>
        )}
      </div>
      <Actions>
        <button type="button" onClick={() => saveText(`${JSON.stringify(document, null, 2)}\n`, fileName(`${recipe.name} record`, '.json'))}>
          Save the record
        </button>
        <label class="button">
          Open a record
          <input
            type="file"
            class="unseen"
            accept=".json,application/json"
            onChange={(event) => void openRecord(event.currentTarget.files?.[0], recipe, setTold)}
          />
        </label>
        <button
          type="button"
          onClick={() => {
            if (confirm('Begin a new record? Who made it, the lots and the equipment stay; the rest of this one is forgotten unless it was saved.')) {
              change(['record'], nextRecord(record));
            }
          }}
        >
          Begin a new record
        </button>
      </Actions>
      <Made page={page} />
    </Filling.Provider>
  );
}

/** Opens a record from a file, or says why it cannot be opened. */
async function openRecord(file: File | undefined, recipe: Recipe, tell: (text: string) => void): Promise<void> {
  if (!file) return;
  if (file.size > 1 << 20) return tell(`${file.name} is far too large for a record.`);
  try {
    const text = await file.text();
    recordPage(recipe, text, undefined);
    const { lamella: _, ...found } = JSON.parse(text) as Document;
    change(['record'], found);
    tell('');
  } catch (error) {
    const first = error instanceof LamellaError ? error.problems[0] : undefined;
    tell(`${file.name} cannot be opened: ${first ? `${first.pointer ? `${first.pointer}: ` : ''}${first.message}` : String(error)}`);
  }
}
