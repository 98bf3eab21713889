// The label, and how an assessment stands to the recipe.
import { useMemo, useState } from 'preact/hooks';
import { labelPage, LamellaError, verdict, type Assessment } from '../../lamella';
import { kept, papers, type Look } from '../../store';
import { local } from '../../units';
import { Choice, Quantity, Text } from '../Field';
import { Problems, sentence } from '../Parts';
import { source, standing as onHold } from './batch';
import { Actions, change, Made, made } from './paper';

/** Reads an assessment; the verdict tells what is wrong with it. */
async function openAssessment(file: File | undefined, tell: (text: string) => void): Promise<void> {
  if (!file || file.size > 1 << 20) return;
  try {
    const found = JSON.parse(await file.text()) as Assessment;
    change(['assessment'], found);
    tell('');
  } catch {
    tell(`${file.name} is no assessment: it is not JSON.`);
  }
}

export function Label({ look }: { look: Look }) {
  const { recipe } = look;
  const { facts, assessment } = papers();
  const [told, setTold] = useState('');
  const of = source(look);
  const held = onHold(look).length > 0;
  const page = useMemo(() => made(() => labelPage(of, facts, assessment)), [recipe, kept().bench, facts, assessment]);
  const standing = useMemo(() => {
    try {
      return verdict(of, assessment);
    } catch (error) {
      if (error instanceof LamellaError) return error.problems;
      throw error;
    }
  }, [recipe, kept().bench, assessment]);
  const uncertified = [recipe, ...recipe.layers, ...(recipe.jugs ?? [])].some((one) =>
    ('scents' in one ? (one.scents ?? []) : []).some((scent) => !scent.certificate),
  );
  const field = (name: 'responsible' | 'batch' | 'durability' | 'origin' | 'function', label: string) => (
    <Text label={label} value={facts[name] ?? ''} onValue={(value) => change(['facts', name], value)} />
  );
  return (
    <>
      <div class="panel no-print">
        <h2>What else stands on it</h2>
        <div class="grid">
          <Choice
            label="Sold in"
            value={facts.market ?? 'european-union'}
            options={[
              ['european-union', 'European Union, Northern Ireland'],
              ['great-britain', 'Great Britain'],
              ['united-states', 'United States'],
            ]}
            onValue={(value) => change(['facts', 'market'], value)}
          />
          <Choice
            label="The list names"
            value={facts.style ?? 'as-charged'}
            options={[
              ['as-charged', 'what was weighed in'],
              ['as-formed', 'what became of it'],
            ]}
            onValue={(value) => change(['facts', 'style'], value)}
          />
          {field('function', 'What it is')}
          <Quantity label="Net quantity of a bar" kind="mass" optional value={facts.nominal ?? ''} onValue={(value) => change(['facts', 'nominal'], value)} />
          {field('batch', 'Batch')}
          {field('durability', 'Best before, or months after opening')}
          {field('responsible', 'Responsible person, with address')}
          {field('origin', 'Made in')}
          <Text
            label="Precautions"
            value={facts.precautions?.[0] ?? ''}
            onValue={(value) => change(['facts', 'precautions'], value ? [value] : undefined)}
          />
        </div>
        <p class={'standing' in standing && standing.standing === 'covered' ? '' : 'told'}>
          {'standing' in standing ? standing.says : 'The assessment cannot be read.'}
        </p>
        {!('standing' in standing) && <Problems list={standing} />}
        {'standing' in standing && standing.reasons.length > 0 && (
          <ul>
            {standing.reasons.map((reason, index) => (
              <li key={index}>
                {reason.what}: {local(reason.figure)}; covered is {local(reason.limit)}. {sentence(reason.change)}
              </li>
            ))}
          </ul>
        )}
        <div class="actions">
          <label class="button">
            Open the assessment
            <input
              type="file"
              class="unseen"
              accept=".json,application/json"
              onChange={(event) => void openAssessment(event.currentTarget.files?.[0], setTold)}
            />
          </label>
          {assessment && (
            <button type="button" onClick={() => change(['assessment'], undefined)}>
              Put it away
            </button>
          )}
        </div>
        {told && <p class="told">{told}</p>}
        {uncertified && (
          <p class="faint">A scent’s limit and allergens are entered in the plan: at its layer, press the scent’s name.</p>
        )}
      </div>
      {held ? (
        <p class="told">There is no label while a layer is on hold.</p>
      ) : (
        <>
          <Actions />
          <Made page={page} />
        </>
      )}
    </>
  );
}
