// The library without its bytes: for those who bring them along themselves. `init(bytes)` takes what `initSync` of
// wasm-bindgen takes: an ArrayBuffer, a view of one, or a compiled WebAssembly.Module.
import * as raw from './pkg/lamella_wasm.js';

/** What is wrong with a document or a figure. */
export class LamellaError extends Error {
  constructor(message, problems) {
    super(message);
    this.name = 'LamellaError';
    this.problems = problems;
    this.code = problems[0]?.code ?? 'internal';
  }
}

/** The same function, with its errors as LamellaError. */
const guarded =
  (name) =>
  (...given) => {
    try {
      return raw[name](...given);
    } catch (error) {
      if (error instanceof Error && error.name === 'LamellaError') {
        throw new LamellaError(error.message, error.problems ?? []);
      }
      if (error instanceof WebAssembly.RuntimeError) {
        throw new LamellaError(`internal: ${error.message}; please report it with the recipe`, []);
      }
      throw error;
    }
  };

export const init = (bytes) => void raw.initSync({ module: bytes });

export const version = guarded('version');
export const planJson = guarded('planJson');
export const example = guarded('example');
export const readRecipe = guarded('readRecipe');
export const plan = guarded('plan');
export const sheet = guarded('sheet');
export const sheetText = guarded('sheetText');
export const sheetMarkdown = guarded('sheetMarkdown');
export const safety = guarded('safety');
export const sectionSvg = guarded('sectionSvg');
export const picture = guarded('picture');
export const drag = guarded('drag');
export const tasks = guarded('tasks');
export const explain = guarded('explain');
export const materials = guarded('materials');
export const material = guarded('material');
export const alkali = guarded('alkali');
export const allergens = guarded('allergens');
export const shown = guarded('shown');
export const typed = guarded('typed');
export const stepDecimals = guarded('stepDecimals');
export const rest = guarded('rest');
export const makeRoom = guarded('makeRoom');
export const sharesOf = guarded('sharesOf');
export const label = guarded('label');
export const labelPage = guarded('labelPage');
export const verdict = guarded('verdict');
export const dossier = guarded('dossier');
export const dossierPage = guarded('dossierPage');
export const dossierCsv = guarded('dossierCsv');
export const costPage = guarded('costPage');
export const curePage = guarded('curePage');
export const cureSvg = guarded('cureSvg');
export const recordPage = guarded('recordPage');
export const holds = guarded('holds');
export const trialPage = guarded('trialPage');
export const takeLog = guarded('takeLog');
export const causes = guarded('causes');
export const heat = guarded('heat');
export const heatSvg = guarded('heatSvg');
export const readHeat = guarded('readHeat');
export const heatColour = guarded('heatColour');
export const blend = guarded('blend');
export const certainty = guarded('certainty');
export const advice = guarded('advice');
export const follow = guarded('follow');
export const look = guarded('look');
