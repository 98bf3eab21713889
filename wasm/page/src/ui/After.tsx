// Afterwards, and on paper: the sheet, the label, what the assessor asks for, cost, cure, record, heat.
import { useState } from 'preact/hooks';
import type { Look } from '../store';
import { BatchRecord } from './after/BatchRecord';
import { Causes } from './after/Causes';
import { Composition } from './after/Composition';
import { Cost } from './after/Cost';
import { Cure } from './after/Cure';
import { Heat } from './after/Heat';
import { Label } from './after/Label';
import { Sheet } from './after/Sheet';
import { Trial } from './after/Trial';

const PAGES = [
  ['sheet', 'Sheet'],
  ['label', 'Label'],
  ['composition', 'Composition'],
  ['cost', 'Cost'],
  ['cure', 'Cure'],
  ['trial', 'At the basin'],
  ['record', 'Batch record'],
  ['heat', 'Heat'],
  ['causes', 'What went wrong'],
] as const;
type PageName = (typeof PAGES)[number][0];

export function After({ look }: { look: Look }) {
  const [page, setPage] = useState<PageName>('sheet');
  return (
    <section class="after">
      <nav class="papers no-print" aria-label="Papers">
        {PAGES.map(([name, label]) => (
          <button
            key={name}
            type="button"
            class={name === page ? 'here' : ''}
            aria-current={name === page ? 'page' : undefined}
            onClick={() => setPage(name)}
          >
            {label}
          </button>
        ))}
      </nav>
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
