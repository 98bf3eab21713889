// What the library says in Markdown, as blocks of a page: headings, paragraphs, lists and tables, and no more than that.
import type { Block, Cell } from './lamella';

const cellsOf = (line: string): string[] =>
  line
    .slice(1, -1)
    .split('|')
    .map((cell) => cell.trim());
const cell = (text: string): Cell => (text === '' ? 'empty' : { text });

/** A table; columns with nothing in them are left out. */
function table(lines: readonly string[]): Block {
  const [titles = [], marks = [], ...rows] = lines.map(cellsOf);
  const used = titles.map((_, at) => at).filter((at) => rows.some((row) => row[at] !== ''));
  return {
    is: 'table',
    of: {
      columns: used.map((at) => ({ title: titles[at]!, align: marks[at]!.endsWith(':') ? 'figures' : 'words' })),
      rows: rows.map((row) => ({ cells: used.map((at) => cell(row[at] ?? '')), sum: false })),
    },
  };
}

export function blocksOf(markdown: string): Block[] {
  return markdown
    .split(/\n{2,}/)
    .map((part) => part.trim())
    .filter(Boolean)
    .map((part): Block => {
      const lines = part.split('\n');
      if (part.startsWith('# ')) return { is: 'title', of: part.slice(2) };
      if (part.startsWith('|')) return table(lines);
      if (part.startsWith('- ')) return { is: 'list', of: lines.map((line) => line.replace(/^- /, '')) };
      return { is: 'paragraph', of: part };
    });
}
