// How quantities are shown and typed. Numbers are reckoned by the library; here they only get their decimal sign and unit.
import { LamellaError, shown, stepDecimals, typed } from './lamella';

export interface Units {
  mass: 'g' | 'oz' | 'lb';
  length: 'mm' | 'in';
  temperature: '°C' | '°F';
  /** The sign before decimals; nothing for that of the browser's language. */
  comma: '' | '.' | ',';
}

export const USUAL: Units = { mass: 'g', length: 'mm', temperature: '°C', comma: '' };

let units: Units = USUAL;
let sign = '.';

export function setUnits(next: Units): void {
  units = next;
  sign = next.comma || signOf(navigator.language);
}

/** The sign before decimals in a language. */
function signOf(language: string): '.' | ',' {
  // A browser takes 20 ms to load what it knows of numbers; for most of English that is not needed.
  if (/^en(-(AU|CA|GB|IE|NZ|US))?$/.test(language)) return '.';
  const parts = new Intl.NumberFormat(language).formatToParts(1.5);
  return parts.find((part) => part.type === 'decimal')?.value === ',' ? ',' : '.';
}

/** The units that the library writes its papers in. */
export const paperUnits = (): Pick<Units, 'mass' | 'length' | 'temperature'> => ({
  mass: units.mass,
  length: units.length,
  temperature: units.temperature,
});

/** A number of the library as it is read here. */
export const local = (number: string): string => {
  const minus = number.replace(/^-(?=\d)/, '−');
  return sign === ',' ? minus.replace(/(\d)\.(?=\d)/, '$1,') : minus;
};

const DECIMALS: Record<string, number> = { g: 1, kg: 3, oz: 2, lb: 3, mm: 1, in: 2, '°C': 0, '°F': 0, '%': 1, mL: 0 };

/** What was shown lately: most of what stands on a page stays as it was when one figure changes. */
let lately = new Map<string, string>();

/** A document's quantity as a number in a unit. */
function numberOf(text: string, unit: string, decimals: number | undefined): string {
  const key = `${text} ${unit} ${decimals}`;
  const known = lately.get(key);
  if (known !== undefined) return known;
  if (lately.size > 4000) lately = new Map();
  const number = shown(text, unit, decimals);
  lately.set(key, number);
  return number;
}

/** A quantity in a unit with so many decimals, and the unit. */
export function quantity(text: string, unit: string, decimals?: number): string {
  const number = numberOf(text, unit, decimals ?? DECIMALS[unit] ?? 2);
  return `${local(number)}\u202f${unit}`;
}

export const percent = (text: string, decimals = 1): string => quantity(text, '%', decimals);
export const length = (text: string): string => quantity(text, units.length);
export const temperature = (text: string): string => quantity(text, units.temperature);
/** A mass that nobody weighs: a sum or a result. */
export const mass = (text: string, decimals?: number): string => quantity(text, units.mass, decimals);
export const volume = (text: string): string => quantity(text, 'mL', 0);
export const plain = (text: string, decimals: number): string => local(shown(text, 'fraction', decimals));
/** A quantity in its own unit, rounded to so many decimals. */
export const rounded = (text: string, decimals: number): string => quantity(text, unitOf(text), decimals);
/** A figure and its published range, with the unit once. */
export function ranged(value: { min: string | null; typical: string; max: string | null } | null | undefined): string {
  if (!value) return '';
  const unit = unitOf(value.typical);
  const number = (text: string) => text.slice(0, text.length - unitOf(text).length).trim();
  const range = value.min && value.max ? ` (${number(value.min)} to ${number(value.max)})` : '';
  return local(`${number(value.typical)}${range} ${unit}`);
}
/** A mass as a scale of this step shows it. */
export const weighed = (text: string, step: string): string =>
  quantity(text, units.mass, stepDecimals(step, units.mass));
export const massUnit = (): string => units.mass;

/** What a field is about: which unit stands where none is typed, and which one it is shown in. */
export type Kind = 'mass' | 'length' | 'temperature' | 'time' | 'share' | 'volume' | 'parts' | 'number' | 'layer' | 'dose' | 'plain' | 'saponification' | 'density';

const OF: Record<string, keyof Units | undefined> = { mass: 'mass', length: 'length', temperature: 'temperature' };

/** The unit of a document's text: `12.5 g` has `g`. */
export const unitOf = (text: string): string => /[^\d.,\s-].*$/.exec(text)?.[0].trim() ?? '';

/** The unit that stands behind a field. */
export function fieldUnit(kind: Kind, value: string): string {
  const own = unitOf(value);
  const setting = OF[kind];
  if (setting) return units[setting];
  if (kind === 'share') return '%';
  if (kind === 'volume') return own || 'mL';
  if (kind === 'time') return own || 'h';
  if (kind === 'saponification') return own || 'mg KOH/g';
  if (kind === 'density') return own || 'g/mL';
  if (kind === 'parts') return 'parts';
  if (kind === 'number' || kind === 'plain') return '';
  // A layer's share and a dose may be of several kinds; the unit that is there stays.
  if (own === '%' || own === '') return own || (kind === 'dose' ? '%' : 'parts');
  if (own === 'part' || own === 'parts') return 'parts';
  if (/^(mm|cm|in|m|ft)$/.test(own)) return units.length;
  if (/^(mL|L|cL)$/.test(own)) return own;
  return units.mass;
}

/** A document's text as a field shows it: the number alone. */
export function fieldText(value: string, unit: string): string {
  if (value === '') return '';
  const own = unitOf(value);
  const number = value.slice(0, value.length - own.length).trim();
  // Typed again, a minus is what keyboards have.
  if (own === unit || (own === 'part' && unit === 'parts') || unit === '') return local(number).replace('−', '-');
  try {
    const exact = numberOf(value, unit, undefined);
    return local(/\.\d{4,}$/.test(exact) ? numberOf(value, unit, 3) : exact);
  } catch {
    return local(value);
  }
}

/** What was typed as the document carries it, or why it cannot. */
export function take(text: string, unit: string): { value: string } | { wrong: string } {
  try {
    return { value: typed(text, unit) };
  } catch (error) {
    if (!(error instanceof LamellaError)) return { wrong: String(error) };
    // Both readings of a figure that may be two stand in the advice.
    const said = error.problems.map(({ message, advice }) => [message, advice].filter(Boolean).join('; '));
    return { wrong: said.join('; ') || error.message };
  }
}

/** A share or a ratio that the library worked out, as a recipe may state it: with two decimals. */
export const shownStep = (text: string, ratio: boolean): string =>
  ratio ? shown(text, 'fraction', 2) : `${shown(text, '%', 1)} %`;

/** A time that the library worked out, in hours or, when short, in minutes. */
export function shownHours(text: string): string {
  const hours = shown(text, 'h', 1);
  return Number(hours) < 2 ? `${shown(text, 'min', 0)} min` : `${local(hours)} h`;
}

/** A day as fields of dates have it. */
export const typedDate = (day: Date): string => {
  const two = (number: number) => String(number).padStart(2, '0');
  return `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
};

/** A day with the time of it, as the log and the record of a batch read it. */
export const typedTime = (moment: Date): string => {
  const two = (number: number) => String(number).padStart(2, '0');
  return `${typedDate(moment)} ${two(moment.getHours())}:${two(moment.getMinutes())}`;
};

/** When something happens, as the forecast of heat has it. */
export const when = (time: 'later' | { at: string }): string => (time === 'later' ? 'not by then' : shownHours(time.at));
