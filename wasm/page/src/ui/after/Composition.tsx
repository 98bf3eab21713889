// The composition, for whoever assesses it.
import { useMemo } from 'preact/hooks';
import { dossierCsv, dossierPage } from '../../lamella';
import { fileName, saveText } from '../../files';
import type { Look } from '../../store';
import { Actions, made, Made } from './paper';

export function Composition({ look }: { look: Look }) {
  const { recipe } = look;
  const page = useMemo(() => made(() => dossierPage(recipe)), [recipe]);
  return (
    <>
      <Actions>
        <button type="button" onClick={() => saveText(dossierCsv(recipe), fileName(recipe.name, '.csv'), 'text/csv')}>
          Save as CSV
        </button>
      </Actions>
      <Made page={page} />
    </>
  );
}
