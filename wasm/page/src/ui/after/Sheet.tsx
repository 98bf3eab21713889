// The sheet of the batch.
import { useMemo } from 'preact/hooks';
import { sheet, sheetMarkdown, sheetText } from '../../lamella';
import { fileName, saveText } from '../../files';
import { get, kept, type Look } from '../../store';
import { paperUnits } from '../../units';
import { source } from './batch';
import { Actions, made, Made } from './paper';

export function Sheet({ look }: { look: Look }) {
  const { recipe } = look;
  const { units } = get();
  const of = source(look);
  const page = useMemo(() => made(() => sheet(of, paperUnits())), [recipe, kept().bench, units]);
  return (
    <>
      <Actions>
        <button type="button" onClick={() => saveText(sheetText(of, paperUnits()), fileName(recipe.name, '.txt'), 'text/plain')}>
          Save as text
        </button>
        <button type="button" onClick={() => saveText(sheetMarkdown(of, paperUnits()), fileName(recipe.name, '.md'), 'text/markdown')}>
          Save as Markdown
        </button>
      </Actions>
      <Made page={page} />
    </>
  );
}
