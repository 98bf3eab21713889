// Afterwards, and on paper: the sheet, the label, what the assessor asks for, cost, cure, record, heat.
import { get, put, type Look, type Paper } from '../store';
import { standing } from './after/batch';
import { BatchRecord } from './after/BatchRecord';
import { Causes } from './after/Causes';
import { Composition } from './after/Composition';
import { Cost } from './after/Cost';
import { Cure } from './after/Cure';
import { Heat } from './after/Heat';
import { Label } from './after/Label';
import { Sheet } from './after/Sheet';
import { Trial } from './after/Trial';
import { Held } from './Held';

const PAGES: readonly (readonly [Paper, string])[] = [
  ['sheet', 'Sheet'],
  ['label', 'Label'],
  ['composition', 'Composition'],
  ['cost', 'Cost'],
  ['cure', 'Cure'],
  ['trial', 'At the basin'],
  ['record', 'Batch record'],
  ['heat', 'Heat'],
  ['causes', 'What went wrong'],
];

export function After({ look }: { look: Look }) {
  const page = get().paper;
  return (
    <section class="after">
      <nav class="papers no-print" aria-label="Papers">
        {PAGES.map(([name, label]) => (
          <button
            key={name}
            type="button"
            class={name === page ? 'here' : ''}
            aria-current={name === page ? 'page' : undefined}
            onClick={() => put({ paper: name, notice: '' })}
          >
            {label}
          </button>
        ))}
      </nav>
      <Held holds={standing(look)} />
      {page === 'sheet' && <Sheet look={look} />}
      {page === 'label' && <Label look={look} />}
      {page === 'composition' && <Composition look={look} />}
      {page === 'cost' && <Cost look={look} />}
      {page === 'cure' && <Cure look={look} />}
      {page === 'trial' && <Trial look={look} />}
      {page === 'record' && <BatchRecord look={look} />}
      {page === 'heat' && <Heat look={look} />}
      {page === 'causes' && <Causes look={look} />}
    </section>
  );
}
