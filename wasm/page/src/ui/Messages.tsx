// What a maker must know of what is stored, until it has been read; and what is kept aside.
import { useState } from 'preact/hooks';
import { fileName, saveAll, saveText } from '../files';
import type { Told } from '../kept/keep';
import { asides, asideSince, read, remove } from '../kept/storage';
import { put, saveNow, type State } from '../store';

export function Messages({ state }: { state: State }) {
  const { refusal, told } = state;
  if (!refusal && told.length === 0) return null;
  return (
    <div class="messages no-print">
      {refusal && (
        <div class="message grave" role="alert">
          <p>
            <b>Your work is not being stored.</b>{' '}
            {refusal === 'full' ? 'The browser’s storage is full.' : 'This browser lets this page store nothing.'} What you see
            is in this tab only: download it before you close the tab.
          </p>
          <div class="actions">
            <button type="button" onClick={saveAll}>
              Download everything
            </button>
            <button type="button" onClick={saveNow}>
              Try again
            </button>
          </div>
        </div>
      )}
      {told.map((one, index) => (
        <div key={index} class="message" role="alert">
          <p>{words(one)}</p>
          <div class="actions">
            {one.is === 'aside' && (
              <button type="button" onClick={saveNew}>
                Download it
              </button>
            )}
            {one.is === 'copy' && state.shelf.some(({ id }) => id === one.id) && (
              <button type="button" onClick={() => put({ current: one.id, mode: 'plan', place: { at: 'bar' }, mould: 0, told: without(told, one) })}>
                Show the copy
              </button>
            )}
            <button type="button" onClick={() => put({ told: without(told, one) })}>
              Close
            </button>
          </div>
        </div>
      ))}
    </div>
  );
}

const without = (told: readonly Told[], one: Told) => told.filter((other) => other !== one);

function words(told: Told): string {
  switch (told.is) {
    case 'aside':
      return `Some of what this browser had stored could not be read: ${told.what.join(', ')}. It is kept aside as it was, under Recipes. Everything else is here.`;
    case 'copy':
      return `“${told.name}” was changed in two tabs at the same time. The later change stands; the earlier one is kept as a copy, first under Recipes.`;
    case 'dropped':
      return told.here
        ? `“${told.name}” was deleted in another tab, but had been changed in this one: it is kept.`
        : `“${told.name}” was deleted in another tab.`;
  }
}

/** What this page has put aside since it was loaded: one text as it was, several by their keys. */
function saveNew(): void {
  const since = asides().filter((key) => asideSince(key).getTime() >= Math.floor(performance.timeOrigin));
  if (since.length === 1) saveAside(since[0]!);
  else saveText(JSON.stringify(Object.fromEntries(since.map((key) => [key, read(key)])), null, 1), 'lamella-kept-aside.json');
}

const saveAside = (key: string): void => saveText(read(key) ?? '', fileName(key, '.txt'), 'text/plain');

const NAMES: Record<string, string> = { recipe: 'A recipe', bench: 'A bench', papers: 'Papers', settings: 'Settings', all: 'Everything' };
const nameOf = (key: string): string => NAMES[key.slice(key.lastIndexOf('/') + 1)] ?? 'Everything, of an older page';

/** What could not be read, as it was stored. */
export function Asides() {
  const [, again] = useState(0);
  const list = asides();
  if (list.length === 0) return null;
  return (
    <section class="asides">
      <h2>Kept aside</h2>
      <p class="faint">What was stored and could not be read, and what was put away to begin afresh. It is as it was.</p>
      <ul class="rows">
        {list.map((key) => (
          <li key={key}>
            <div class="row">
              <span class="known">
                {nameOf(key)}
                <span class="beside">
                  {asideSince(key).toLocaleString()}, {Math.ceil((read(key) ?? '').length / 1000)} kB
                </span>
              </span>
              <button type="button" onClick={() => saveAside(key)}>
                Download
              </button>
              <button
                type="button"
                class="drop"
                aria-label={`Delete ${nameOf(key)}, ${asideSince(key).toLocaleString()}`}
                onClick={() => {
                  if (!confirm('Delete this for good? It is stored nowhere else unless you have downloaded it.')) return;
                  remove(key);
                  again((count) => count + 1);
                }}
              >
                ×
              </button>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}
