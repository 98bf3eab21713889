// Afterwards: the sheet and what follows from it, to read, print and save.
import { useMemo } from 'preact/hooks';
import { sheet, sheetMarkdown, sheetText } from '../lamella';
import { fileName, saveText } from '../files';
import type { Look } from '../store';
import { Blocks } from './Parts';

export function After({ look }: { look: Look }) {
  const page = useMemo(() => sheet(look.recipe), [look.recipe]);
  const { name } = look.recipe;
  return (
    <section class="after">
      <div class="actions no-print">
        <button type="button" onClick={() => print()}>
          Print
        </button>
        <button type="button" onClick={() => saveText(sheetText(look.recipe), fileName(name, '.txt'), 'text/plain')}>
          Save as text
        </button>
        <button type="button" onClick={() => saveText(sheetMarkdown(look.recipe), fileName(name, '.md'), 'text/markdown')}>
          Save as Markdown
        </button>
      </div>
      <Blocks blocks={page.blocks} />
    </section>
  );
}
