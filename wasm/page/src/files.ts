// Files, links and dropped things: what comes from outside is read by the library before anything else sees it.
import { useEffect, useState } from 'preact/hooks';
import { LamellaError, readHeat, readRecipe } from './lamella';
import type { Heat, Recipe } from './lamella';
import { get, put, setPapers, take, takeBack } from './store';
import { allStored } from './kept/keep';
import { readEntry } from './kept/read';
import { list } from './kept/shape';

/** Opens a document, or says why it cannot be opened. */
export function open(text: string, name: string): boolean {
  try {
    if (is(text, 'page/')) return openAll(text, name);
    if (is(text, 'heat/')) {
      readHeat(text);
      const heat = JSON.parse(text) as Heat;
      setPapers((old) => ({ ...old, heat }));
      put({ notice: `Opened ${name}: what the recipe in hand sets in.` });
      return true;
    }
    readRecipe(text);
    // The maker's own text is kept: units as they were typed, fields in their order.
    const recipe = JSON.parse(text) as Recipe;
    take(recipe, `Opened ${name}.`);
    return true;
  } catch (error) {
    const problems = error instanceof LamellaError ? error.problems : [];
    const first = problems[0];
    const more = problems.length > 1 ? ` (and ${problems.length - 1} more)` : '';
    const why = first ? `${first.pointer ? `${first.pointer}: ` : ''}${first.message}` : String(error);
    put({ notice: `${name} cannot be opened: ${why}${more}` });
    return false;
  }
}

/** Whether a text says of itself that it is a document of a kind. */
function is(text: string, kind: string): boolean {
  try {
    return String((JSON.parse(text) as { lamella?: unknown } | null)?.lamella).startsWith(kind);
  } catch {
    return false;
  }
}

/** Opens what was downloaded as a whole: each recipe with its bench and its papers, beside what is there. */
function openAll(text: string, name: string): boolean {
  let left = 0;
  const entries = list(readEntry)((JSON.parse(text) as { shelf?: unknown }).shelf, () => void (left += 1)) ?? [];
  if (entries.length === 0) {
    put({ notice: `${name} cannot be opened: it holds no recipe that can be read.` });
    return false;
  }
  const some = entries.length === 1 ? 'one recipe' : `${entries.length} recipes`;
  takeBack(entries, `Opened ${name}: ${some}, with bench and papers.${left > 0 ? ' Some of it could not be read; keep the file.' : ''}`);
  return true;
}

const MOST = 1 << 20;
/** All that a browser stores for a page, written out twice. */
const MOST_OF_ALL = 24 * MOST;

export async function openFiles(files: FileList | null): Promise<void> {
  for (const file of Array.from(files ?? [])) {
    const text = file.size > MOST_OF_ALL ? '' : await file.text();
    if (file.size > (is(text, 'page/') ? MOST_OF_ALL : MOST)) put({ notice: `${file.name} cannot be opened: it is far too large for a recipe.` });
    else open(text, file.name);
  }
}

export function saveText(text: string, name: string, type = 'application/json'): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

export const fileName = (name: string, end: string): string =>
  `${name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-+|-+$/g, '') || 'recipe'}${end}`;

export const saveRecipe = (recipe: Recipe): void =>
  saveText(`${JSON.stringify(recipe, null, 2)}\n`, fileName(recipe.name, '.json'));

/** Saves all that this tab holds, and all that is stored, as it is. The page opens it again. */
export function saveAll(): void {
  const { shelf, units, usual } = get();
  const entries = shelf.map(({ recipe, bench, papers }) => ({ recipe, bench, papers }));
  saveText(`${JSON.stringify({ lamella: 'page/1', shelf: entries, units, usual, stored: allStored() }, null, 1)}\n`, 'lamella-everything.json');
}

export const saveHeat = (heat: Heat, name: string): void =>
  saveText(`${JSON.stringify(heat, null, 2)}\n`, fileName(name, '-heat.json'));

async function through(bytes: Uint8Array<ArrayBuffer>, stream: CompressionStream | DecompressionStream): Promise<Uint8Array> {
  const out = new Blob([bytes]).stream().pipeThrough(stream as ReadableWritablePair<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>>);
  const reader = out.getReader();
  const parts: Uint8Array[] = [];
  let total = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    total += value.length;
    // A short link may unpack to very much.
    if (total > MOST) throw new Error('it unpacks to more than a recipe can be');
    parts.push(value);
  }
  const whole = new Uint8Array(total);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/** A recipe as the fragment of an address: it never leaves the browsers of those who share it. */
export async function fragment(recipe: Recipe): Promise<string> {
  const packed = await through(new TextEncoder().encode(JSON.stringify(recipe)), new CompressionStream('deflate-raw'));
  let text = '';
  for (const byte of packed) text += String.fromCharCode(byte);
  return `#r=${btoa(text).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '')}`;
}

export async function copyLink(recipe: Recipe): Promise<void> {
  const link = location.href.replace(/#.*/, '') + (await fragment(recipe));
  try {
    await navigator.clipboard.writeText(link);
    put({ notice: 'The link is in the clipboard: it holds the whole recipe.' });
  } catch {
    // Not as an address that is gone to, which would be opened.
    history.replaceState(history.state, '', link.slice(link.indexOf('#')));
    put({ notice: 'The address of this page now holds the whole recipe: copy it from there.' });
  }
}

/** Opens the recipe of the address, if it has one. */
export async function openLink(): Promise<void> {
  const found = /^#r=([\w-]+)$/.exec(location.hash);
  if (!found) return;
  history.replaceState(history.state, '', location.pathname + location.search);
  try {
    const text = atob(found[1]!.replaceAll('-', '+').replaceAll('_', '/'));
    const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
    const whole = await through(bytes, new DecompressionStream('deflate-raw'));
    open(new TextDecoder('utf-8', { fatal: true }).decode(whole), 'The recipe of the link');
  } catch (error) {
    put({ notice: `The link holds no recipe: ${error instanceof Error ? error.message : error}` });
  }
}

/** Whether a file hangs over the page. */
export function useDrop(): boolean {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const files = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false;
    const on = (event: DragEvent) => {
      if (!files(event)) return;
      event.preventDefault();
      setOver(true);
    };
    const off = (event: DragEvent) => {
      if (event.relatedTarget === null) setOver(false);
    };
    const let_go = (event: DragEvent) => {
      if (!files(event)) return;
      event.preventDefault();
      setOver(false);
      void openFiles(event.dataTransfer?.files ?? null);
    };
    addEventListener('dragover', on);
    addEventListener('dragleave', off);
    addEventListener('drop', let_go);
    return () => {
      removeEventListener('dragover', on);
      removeEventListener('dragleave', off);
      removeEventListener('drop', let_go);
    };
  }, []);
  return over;
}
