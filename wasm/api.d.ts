import type { Problem } from './types.js';
export type * from './types.js';
export type { FoundBlend, Followed, LabelFacts, Look, TakenLog, Units } from './pkg/lamella_wasm.js';
export {
  version, planJson, example, readRecipe, plan, sheet, sheetText, sheetMarkdown, safety, sectionSvg,
  picture, drag, tasks, explain, materials, material, alkali, allergens, shown, typed, stepDecimals, rest, makeRoom, sharesOf,
  label, labelPage, verdict, dossier, dossierPage, dossierCsv, costPage, curePage, cureSvg,
  recordPage, holds, takeLog, trialPage, causes, heat, heatSvg, readHeat, heatColour, blend, certainty, advice, follow, look,
} from './pkg/lamella_wasm.js';

/** What is wrong with a document or a figure: all of it at once. */
export class LamellaError extends Error {
  readonly name: 'LamellaError';
  /** The code of the first problem; `internal` for a failure of the library itself. */
  readonly code: string;
  /** Everything that is wrong, in the order of the document; each with a JSON Pointer and what to do. */
  readonly problems: readonly Problem[];
}
