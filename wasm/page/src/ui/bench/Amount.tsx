// A figure at the bench: large, and understood when it is handed in.
import { useId } from 'preact/hooks';

interface AmountProps {
  label: string;
  unit: string;
  text: string;
  onText: (text: string) => void;
  /** What is wrong with it; empty when nothing is. */
  wrong?: string;
  placeholder?: string;
}

export function Amount({ label, unit, text, onText, wrong = '', placeholder = '' }: AmountProps) {
  const id = useId();
  return (
    <div class="field real">
      <label for={id}>{label}</label>
      <span class={`box${wrong ? ' wrong' : ''}`}>
        <input
          id={id}
          type="text"
          inputMode="decimal"
          autocomplete="off"
          value={text}
          placeholder={placeholder}
          aria-invalid={wrong ? 'true' : undefined}
          aria-describedby={wrong ? `${id}m` : undefined}
          onInput={(event) => onText(event.currentTarget.value)}
        />
        <span class="unit">{unit}</span>
      </span>
      {wrong && (
        <span class="told" id={`${id}m`} role="alert">
          {wrong}
        </span>
      )}
    </div>
  );
}
