// How grave it is that alkali can be left over.
import type { Certainty } from './lamella';

type Figures = Certainty['batch'];

/** Lye-heavy as planned or in every case; lye-heavy only at the worst; or neither. */
export function levelOf(figures: Figures): 'heavy' | 'may-be' | 'clear' {
  if (figures.verdict === 'lye-heavy' || figures.superfat.startsWith('-')) return 'heavy';
  return figures.verdict === 'may-be-lye-heavy' ? 'may-be' : 'clear';
}

/** Whether that may be in the usual course of things too, and not only when nearly everything is at its worst. */
export const usual = (figures: Figures): boolean => figures.covered[0].startsWith('-');
