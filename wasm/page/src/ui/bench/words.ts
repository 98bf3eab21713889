// What stands in the log, in a maker's words.
import type { BatchEvent, Plan, Problem, WeighItem } from '../../lamella';
import { weighedIn } from '../../weighed-in';
import { optionsOf } from '../../materials';
import { fieldUnit, local, percent, quantity, unitOf } from '../../units';
import { sentence } from '../Parts';
import type { Option } from '../Field';

const LIBRARY = ['fat', 'additive', 'liquid', 'colour', 'scent'] as const;

/** Everything of the plan that has a name, the water of the lye too. */
const itemsOf = (plan: Plan): WeighItem[] => [...weighedIn(plan), plan.lye.water];

/** What may have gone in beside the plan: what the batch has first, then the library. */
export function addable(plan: Plan): Option[] {
  const items = itemsOf(plan).filter((item, index, all) => all.findIndex((one) => one.id === item.id) === index);
  const here = 'in this batch';
  const batch: Option[] = [
    ...items.map((item) => ({ key: item.id, name: item.name, group: here })),
    { key: 'pot', name: 'More from the pot of fats', group: here },
    { key: 'lye', name: 'More of the lye', group: here },
  ];
  const library = optionsOf(LIBRARY).map((one) => ({ ...one, key: one.key.slice(one.key.indexOf(' ') + 1) }));
  return [...batch, ...library.filter((one) => !batch.some((other) => other.key === one.key))];
}

/** Whether something without a jug goes into the lye, and not into the pot. */
export const goesIntoLye = (plan: Plan, item: string): boolean =>
  [...plan.lye.alkalis, plan.lye.water, ...plan.lye.liquids, ...plan.lye.doses].some((one) => one.id === item);

/** The name of something in the log. */
function named(plan: Plan, item: string): string {
  if (item === 'pot') return 'fat from the pot';
  if (item === 'lye') return 'lye';
  const found = itemsOf(plan).find((one) => one.pointer === item || one.id === item);
  return found?.name ?? addable(plan).find((one) => one.key === item)?.name ?? item;
}

const ALKALI = { naoh: 'sodium hydroxide', koh: 'potassium hydroxide' } as const;

/** An event in a line. */
export function words(event: BatchEvent, plan: Plan): string {
  const mass = event.mass === undefined ? '' : figure(event.mass);
  const into = event.in === undefined ? '' : ` into ${event.in}`;
  if (event.weighed !== undefined) return `${named(plan, event.weighed)}${into}: ${mass}`;
  if (event.added !== undefined) return `More ${named(plan, event.added)}${into}: ${mass}`;
  if (event.poured !== undefined) return `${event.poured} poured: ${mass}`;
  if (event.reads !== undefined) return `Scale with ${event.reads} after a pour: ${mass}`;
  if (event.skipped !== undefined) return `Left out: ${named(plan, event.skipped)}${event.in === undefined ? '' : `, ${event.in}`}`;
  if (event.left !== undefined) return `Stays in ${vesselName(event.left)}: ${mass}`;
  if (event.found !== undefined) {
    const is = event.is === undefined ? '' : ` is ${ALKALI[event.is]}`;
    return `The ${ALKALI[event.found]}${is}${event.purity === undefined ? '' : ` of ${local(event.purity)}`}`;
  }
  if (event.tested !== undefined) return `${event.tested} tested: ${percent(event.free_alkali ?? '', 3)} free alkali`;
  if (event.temperature !== undefined) return `${event.of === 'lye' ? 'Lye' : 'Fats'} measured: ${figure(event.temperature)}`;
  return event.note ?? '';
}

export const vesselName = (vessel: string): string =>
  vessel === 'pot' ? 'the pot of fats' : vessel === 'lye' ? 'the vessel of the lye' : vessel;

/** A mass or a temperature of the log, in the units that are set. */
export function figure(text: string): string {
  const unit = fieldUnit(unitOf(text).startsWith('°') ? 'temperature' : 'mass', text);
  return unitOf(text) === unit ? local(text.replace(/\s+(?=\S+$)/, '\u202f')) : quantity(text, unit);
}

/** The clock of an entry: its day is that of the batch. */
export const clock = (event: BatchEvent): string => event.at?.split(' ').at(-1) ?? '';

/** What is wrong with a field of the last event; with no field, what is wrong with none of these. */
export function wrongAt(problems: readonly Problem[], ...fields: string[]): string {
  const field = (problem: Problem) => problem.pointer.split('/')[3] ?? '';
  const found = problems.filter((problem) => fields.includes(field(problem)));
  return told(found);
}

export const told = (problems: readonly Problem[]): string =>
  problems.map((problem) => `${sentence(problem.message)} ${sentence(problem.advice)}`.trim()).join(' ');
