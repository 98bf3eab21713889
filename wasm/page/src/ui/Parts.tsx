// Small parts: figures with what stands behind them, cautions, parts of a sheet.
import { createContext } from 'preact';
import type { ComponentChildren } from 'preact';
import { useContext, useEffect, useRef } from 'preact/hooks';
import { explain } from '../lamella';
import type { Basis, Block, Caution, Explanation, Problem, Recipe } from '../lamella';
import { local } from '../units';

export const Behind = createContext<(explanation: Explanation) => void>(() => {});
export const InHand = createContext<Recipe | undefined>(undefined);

interface FigureProps {
  /** What the library explains. */
  of: string;
  name?: string;
  children: ComponentChildren;
}

/** A figure; a press shows where it comes from. */
export function Figure({ of, name, children }: FigureProps) {
  const show = useContext(Behind);
  const recipe = useContext(InHand);
  const ask = () => {
    if (!recipe) return;
    const found = explain(recipe, of);
    if (found) show(found);
  };
  return (
    <button type="button" class="figure" onClick={ask} title="Where this comes from">
      {name && <span class="what">{name}</span>}
      <span class="value">{children}</span>
    </button>
  );
}

const KINDS: Record<string, string> = {
  standard: 'standard',
  regulation: 'regulation',
  handbook: 'handbook or paper',
  dataset: 'public dataset',
  supplier: 'supplier',
  derived: 'worked out from other figures',
  'common-practice': 'common practice, no source',
  memory: 'from memory, not read',
};

export function Sources({ sources }: { sources: readonly Basis[] }) {
  if (sources.length === 0) return null;
  return (
    <ul class="sources">
      {sources.map((basis, index) => (
        <li key={index}>
          <strong>{basis.what}</strong>: {basis.cite}{' '}
          <span class="faint">
            ({KINDS[basis.kind] ?? basis.kind}
            {basis.seen ? '' : '; quoted from memory'})
          </span>
        </li>
      ))}
    </ul>
  );
}

/** A sheet that lies over the page. */
export function Over(props: { title: string; onClose: () => void; children: ComponentChildren; wide?: boolean }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    dialog.current?.showModal();
    // What lies over a view does not stay over another.
    const close = () => dialog.current?.close();
    addEventListener('popstate', close);
    return () => removeEventListener('popstate', close);
  }, []);
  return (
    <dialog
      ref={dialog}
      class={props.wide ? 'wide' : ''}
      aria-label={props.title}
      onClose={props.onClose}
      onClick={(event) => event.target === dialog.current && dialog.current?.close()}
    >
      <div class="over">
        <header>
          <h2>{props.title}</h2>
          <button type="button" class="close" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </header>
        {props.children}
      </div>
    </dialog>
  );
}

/** Names and what stands for them. */
export function Pairs({ list }: { list: readonly (readonly [string, ComponentChildren])[] }) {
  return (
    <dl class="pairs">
      {list.map(([name, value], index) => (
        <div key={index}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

export function Explained({ of, onClose }: { of: Explanation; onClose: () => void }) {
  return (
    <Over title={of.title} onClose={onClose}>
      <p>{of.how}</p>
      <Pairs list={of.from.map((input) => [input.name, local(input.value)] as const)} />
      {of.sources.length > 0 && <h3>Whose numbers these are</h3>}
      <Sources sources={of.sources} />
    </Over>
  );
}

const grave = (caution: Caution) => caution.code === 'superfat.lye-heavy';

/** Cautions of one place. */
export function Cautions({ list, placed }: { list: readonly Caution[]; placed?: boolean }) {
  if (list.length === 0) return null;
  return (
    <ul class="cautions">
      {list.map((caution, index) => (
        <li key={index} class={grave(caution) ? 'grave' : ''}>
          <details>
            <summary>
              {placed && caution.place ? <b>{caution.place} </b> : null}
              {placed && caution.place ? caution.message : capital(caution.message)} <span class="found-figure">{local(caution.figure)}</span>
            </summary>
            <p>{sentence(caution.advice)}</p>
            <p class="faint">
              Held against {local(caution.limit)}: {caution.source} ({KINDS[caution.basis] ?? caution.basis}).
            </p>
          </details>
        </li>
      ))}
    </ul>
  );
}

export const capital = (text: string): string => (text === '' ? '' : `${text[0]!.toUpperCase()}${text.slice(1)}`);

export const sentence = (text: string): string =>
  text === '' ? '' : `${text[0]!.toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? '' : '.'}`;

/** What keeps something from being made. */
export function Problems({ list }: { list: readonly Problem[] }) {
  return (
    <ul class="problems">
      {list.map((problem, index) => (
        <li key={index}>
          {sentence(problem.message)} <span class="faint">{sentence(problem.advice)}</span>
        </li>
      ))}
    </ul>
  );
}

/** A page of the library, set as HTML. */
export function Blocks({ blocks }: { blocks: readonly Block[] }) {
  return (
    <div class="sheet">
      {blocks.map((block, index) => (
        <One key={index} block={block} />
      ))}
    </div>
  );
}

function One({ block }: { block: Block }) {
  switch (block.is) {
    case 'title':
      return <h1>{block.of}</h1>;
    case 'heading':
      return <h2>{block.of}</h2>;
    case 'subheading':
      return <h3>{block.of}</h3>;
    case 'paragraph':
      return <p>{block.of}</p>;
    case 'list':
      return (
        <ul>
          {block.of.map((item, index) => (
            <li key={index}>{item}</li>
          ))}
        </ul>
      );
    case 'numbered':
      return (
        <ol>
          {block.of.map((item, index) => (
            <li key={index}>{item}</li>
          ))}
        </ol>
      );
    case 'table': {
      const { columns, rows } = block.of;
      const titled = columns.some((column) => column.title !== '');
      return (
        <div class="scroll" tabIndex={0} role="group" aria-label="table">
          <table class={columns.length > 3 && titled ? 'many' : ''}>
            {titled && (
              <thead>
                <tr>
                  {columns.map((column, index) => (
                    <th key={index} scope="col" class={column.align}>
                      {column.title}
                    </th>
                  ))}
                </tr>
              </thead>
            )}
            <tbody>
              {rows.map((row, index) => (
                <tr key={index} class={row.sum ? 'sum' : ''}>
                  {row.cells.map((cell, at) => (
                    <td key={at} class={`${columns[at]?.align ?? 'words'}${cell === 'tick' ? ' tick' : ''}`} data-title={columns[at]?.title}>
                      {cell === 'empty' ? '' : cell === 'tick' ? '☐' : localFigure(cell.text, columns[at]?.align)}
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      );
    }
  }
}

/** Figures of a table get the decimal sign that is read here. */
const localFigure = (text: string, align: string | undefined) => (align === 'figures' ? local(text) : text);
