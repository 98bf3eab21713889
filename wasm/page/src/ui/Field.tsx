// Fields: what is typed is understood by the library, and told at the field when it is not.
import { useId, useRef, useState } from 'preact/hooks';
import type { ComponentChildren } from 'preact';
import type { Problem } from '../lamella';
import { fieldText, fieldUnit, take, type Kind } from '../units';

interface QuantityProps {
  label: string;
  value: string | undefined;
  kind: Kind;
  onValue: (value: string | undefined) => void;
  /** What is wrong with it, from the reader of the recipe. */
  problem?: Problem | undefined;
  /** Whether it may be left empty. */
  optional?: boolean;
  hint?: ComponentChildren;
  /** Whether the label is only for those who do not see the place. */
  quiet?: boolean;
  placeholder?: string;
  /** What stands behind the number where the library wants no unit. */
  after?: string;
}

/** A number with its unit. */
export function Quantity(props: QuantityProps) {
  const { label, value = '', kind, onValue, problem, optional, hint, quiet, placeholder, after } = props;
  const id = useId();
  const [draft, setDraft] = useState<string | undefined>();
  const [wrong, setWrong] = useState('');
  const unit = fieldUnit(kind, value);
  const text = draft ?? fieldText(value, unit);
  const message = wrong || problem?.message;
  const input = (typed: string) => {
    setDraft(typed);
    if (typed.trim() === '') {
      setWrong(optional ? '' : 'a number is missing here');
      if (optional) onValue(undefined);
      return;
    }
    const taken = take(typed, unit);
    if ('wrong' in taken) setWrong(taken.wrong);
    else {
      setWrong('');
      if (taken.value !== value) onValue(taken.value);
    }
  };
  return (
    <div class={`field${quiet ? ' quiet' : ''}`}>
      <label for={id} class={quiet ? 'unseen' : ''}>
        {label}
      </label>
      <span class={`box${message ? ' wrong' : ''}${(unit || after || '').length > 5 ? ' far' : ''}`}>
        <input
          id={id}
          type="text"
          inputMode="decimal"
          autocomplete="off"
          value={text}
          placeholder={placeholder ?? ''}
          aria-invalid={message ? 'true' : undefined}
          aria-describedby={message ? `${id}m` : undefined}
          onInput={(event) => input(event.currentTarget.value)}
          onFocus={(event) => event.currentTarget.select()}
          onBlur={() => {
            setDraft(undefined);
            setWrong('');
          }}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return;
            event.preventDefault();
            event.currentTarget.blur();
          }}
        />
        {(unit || after) && <span class="unit">{unit || after}</span>}
      </span>
      {hint && !message && <span class="hint">{hint}</span>}
      {message && (
        <span class="told" id={`${id}m`} role="status">
          {message}
          {!wrong && problem?.advice ? `; ${problem.advice}` : ''}
        </span>
      )}
    </div>
  );
}

/** A whole number of things, one or more. */
export function Count({ label, value, onValue }: { label: string; value: number; onValue: (value: number) => void }) {
  return (
    <div class="field">
      <label>
        {label}
        <input
          type="number"
          min={1}
          max={10000}
          step={1}
          value={value}
          onInput={(event) => {
            const typed = Number(event.currentTarget.value);
            if (Number.isInteger(typed) && typed >= 1) onValue(typed);
          }}
        />
      </label>
    </div>
  );
}

interface TextProps {
  label: string;
  value: string;
  onValue: (value: string) => void;
  problem?: Problem | undefined;
  long?: boolean;
  quiet?: boolean;
  class?: string;
  hint?: string;
}

export function Text({ label, value, onValue, problem, long, quiet, class: name, hint }: TextProps) {
  const id = useId();
  const shared = {
    id,
    value,
    maxLength: 200,
    autocomplete: 'off' as const,
    'aria-invalid': problem ? ('true' as const) : undefined,
    onInput: (event: { currentTarget: { value: string } }) =>
      onValue(event.currentTarget.value.replace(/[\u0000-\u001f\u007f-\u009f]/g, ' ')),
  };
  return (
    <div class={`field ${quiet ? 'quiet' : ''} ${name ?? ''}`}>
      <label for={id} class={quiet ? 'unseen' : ''}>
        {label}
      </label>
      {long ? <textarea rows={2} {...shared} /> : <input type="text" {...shared} />}
      {hint && !problem && <span class="hint">{hint}</span>}
      {problem && (
        <span class="told" role="status">
          {problem.message}
        </span>
      )}
    </div>
  );
}

interface ChoiceProps<T extends string> {
  label: string;
  value: T;
  options: readonly (readonly [T, string])[];
  onValue: (value: T) => void;
  quiet?: boolean;
}

export function Choice<T extends string>({ label, value, options, onValue, quiet }: ChoiceProps<T>) {
  const id = useId();
  return (
    <div class={`field ${quiet ? 'quiet' : ''}`}>
      <label for={id} class={quiet ? 'unseen' : ''}>
        {label}
      </label>
      <select id={id} value={value} onChange={(event) => onValue(event.currentTarget.value as T)}>
        {options.map(([word, text]) => (
          <option key={word} value={word}>
            {text}
          </option>
        ))}
      </select>
    </div>
  );
}

/** Two or three words of which one holds. */
export function Switch<T extends string>({ label, value, options, onValue }: ChoiceProps<T>) {
  const name = useId();
  return (
    <fieldset class="switch">
      <legend>{label}</legend>
      {options.map(([word, text]) => (
        <label key={word}>
          <input type="radio" name={name} checked={word === value} onChange={() => onValue(word)} />
          <span>{text}</span>
        </label>
      ))}
    </fieldset>
  );
}

export interface Option {
  key: string;
  name: string;
  beside?: string | undefined;
  group: string;
  swatch?: string | undefined;
}

interface SearchProps {
  label: string;
  options: readonly Option[];
  onPick: (option: Option) => void;
  /** What is offered for a text that is none of them. */
  own?: (text: string) => Option | undefined;
  placeholder?: string;
}

const MOST = 40;
const folded = (text: string) =>
  text
    .toLowerCase()
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '');

/** A list to search: by name, and by what stands beside it. */
export function Search({ label, options, onPick, own, placeholder }: SearchProps) {
  const id = useId();
  const [text, setText] = useState('');
  const [open, setOpen] = useState(false);
  const [at, setAt] = useState(0);
  const input = useRef<HTMLInputElement>(null);
  const words = folded(text).split(/\s+/).filter(Boolean);
  const place = (option: Option) => {
    const name = folded(option.name);
    const all = `${name} ${folded(option.beside ?? '')}`;
    if (!words.every((word) => all.includes(word))) return -1;
    const first = words[0] ?? '';
    return name.startsWith(first) ? 0 : name.includes(first) ? 1 : 2;
  };
  const found = open
    ? options
        .map((option) => [place(option), option] as const)
        .filter(([rank]) => rank >= 0)
        .sort((a, b) => a[0] - b[0])
        .map(([, option]) => option)
        .slice(0, MOST)
    : [];
  const mine = open && text.trim() !== '' ? own?.(text.trim()) : undefined;
  const shown = mine ? [...found, mine] : found;
  const pick = (option: Option | undefined) => {
    if (!option) return;
    onPick(option);
    setText('');
    setOpen(false);
  };
  return (
    <div class="field search">
      <label for={id}>{label}</label>
      <input
        ref={input}
        id={id}
        type="text"
        role="combobox"
        autocomplete="off"
        placeholder={placeholder ?? 'name or INCI'}
        list={undefined}
        aria-expanded={open && shown.length > 0}
        aria-controls={`${id}l`}
        aria-autocomplete="list"
        aria-activedescendant={open && shown[at] ? `${id}o${at}` : undefined}
        value={text}
        onInput={(event) => {
          setText(event.currentTarget.value);
          setOpen(true);
          setAt(0);
        }}
        onFocus={() => setOpen(true)}
        onBlur={() => setOpen(false)}
        onKeyDown={(event) => {
          if (event.key === 'ArrowDown') setAt(Math.min(at + 1, shown.length - 1));
          else if (event.key === 'ArrowUp') setAt(Math.max(at - 1, 0));
          else if (event.key === 'Enter') pick(shown[at]);
          else if (event.key === 'Escape') setOpen(false);
          else return;
          event.preventDefault();
        }}
      />
      {open && (
        <ul id={`${id}l`} role="listbox" aria-label={label} class="found">
          {shown.map((option, index) => (
            <li
              key={option.key}
              id={`${id}o${index}`}
              role="option"
              aria-selected={index === at}
              class={index === at ? 'here' : ''}
              onPointerDown={(event) => event.preventDefault()}
              onClick={() => pick(option)}
            >
              {option.swatch && <Swatch colour={option.swatch} />}
              <span class="name">{option.name}</span>
              <span class="beside">{[option.group, option.beside].filter(Boolean).join(' · ')}</span>
            </li>
          ))}
          {shown.length === 0 && <li class="none">Nothing of that name.</li>}
        </ul>
      )}
    </div>
  );
}

/** A colour that a maker or the library gave; drawn as SVG so that no style is written inline. */
export const Swatch = ({ colour }: { colour: string }) => (
  <svg class="swatch" viewBox="0 0 10 10" aria-hidden="true">
    <rect width="10" height="10" rx="2" fill={/^#[0-9a-f]{6}$/i.test(colour) ? colour : '#b8b4ac'} />
  </svg>
);
