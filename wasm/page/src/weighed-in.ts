// What is weighed in for a batch.
import type { Plan, WeighItem } from './lamella';

/** Every weighing of the pot, the lye and the jugs, but for the lye’s water. */
export const weighedIn = (plan: Plan): WeighItem[] => [
  ...plan.pot.fats,
  ...plan.pot.doses,
  ...plan.lye.alkalis,
  ...plan.lye.liquids,
  ...plan.lye.doses,
  ...plan.jugs.flatMap((jug) => [...jug.held, ...jug.doses, ...jug.late_doses]),
];

/** Everything that is weighed in, each material once. */
export function materialsOf(plan: Plan): WeighItem[] {
  const all = weighedIn(plan);
  return all.filter((item, index) => item.id !== 'water' && all.findIndex((one) => one.id === item.id) === index);
}
