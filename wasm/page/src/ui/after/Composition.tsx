// The composition, for whoever assesses it.
import { useMemo } from 'preact/hooks';
import { dossierCsv, dossierPage } from '../../lamella';
import { fileName, saveText } from '../../files';
import { kept, type Look } from '../../store';
import { source } from './batch';
import { Actions, made, Made } from './paper';

export function Composition({ look }: { look: Look }) {
  const { recipe } = look;
  const of = source(look);
  const page = useMemo(() => made(() => dossierPage(of)), [recipe, kept().bench]);
  return (
    <>
      <Actions>
        <button type="button" onClick={() => saveText(dossierCsv(of), fileName(recipe.name, '.csv'), 'text/csv')}>
          Save as CSV
        </button>
      </Actions>
      <Made page={page} />
    </>
  );
}
