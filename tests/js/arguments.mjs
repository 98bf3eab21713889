// `node arguments.mjs <folder of the module>`: every function of the module, with each of its arguments in turn replaced by
// what it does not take. It must say so by a LamellaError with its problems, and go on working; a trap (RuntimeError) or
// an answer to what was never asked fails.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const [pkg] = process.argv.slice(2);
const lamella = await import(pathToFileURL(join(pkg, 'lamella_wasm.js')));
lamella.initSync({ module: readFileSync(join(pkg, 'lamella_wasm_bg.wasm')) });
const data = (name) => readFileSync(new URL(`../../core/data/${name}`, import.meta.url), 'utf8');
const vector = (name) => readFileSync(new URL(`../vectors/${name}`, import.meta.url), 'utf8');

const recipe = JSON.stringify({
  lamella: 'recipe/1', name: 'Plain', superfat: '5 %', fats: [{ fat: 'olive-oil', mass: '500 g' }], alkali: { naoh: {} },
  water: { lye_concentration: '33 %' }, layers: [{ layer: 'All', share: '1 part' }],
  moulds: [{ shape: 'loaf', length: '200 mm', width: '70 mm', height: '70 mm' }],
});
const batch = JSON.stringify({ lamella: 'batch/1', recipe: JSON.parse(recipe), events: [] });
const heat = '{"lamella": "heat/1", "until": "30 min"}';
const assessment = data('example-assessment.json');
const [weighings, prices, record, trial] = ['weighings', 'prices', 'record', 'trial'].map((name) => data(`example-${name}.json`));
const facts = { market: 'great-britain', nominal: '95 g', precautions: ['Keep dry.'] };
const units = { mass: 'oz', length: 'in', temperature: '°F' };

// What an argument takes; a ? at the end where it may be left out. With each a value that it does take.
const FUNCTIONS = {
  version: [],
  planJson: [['text', recipe]],
  example: [],
  readRecipe: [['document', recipe]],
  plan: [['document', recipe]],
  sheet: [['document', recipe], ['object?', units]],
  sheetText: [['document', recipe], ['object?', units]],
  sheetMarkdown: [['document', recipe], ['object?', units]],
  safety: [['document', recipe]],
  sectionSvg: [['document', recipe], ['count', 0]],
  picture: [['document', recipe], ['count', 0]],
  look: [['document', recipe], ['count', 0]],
  drag: [['document', recipe], ['count', 0], ['count', 0], ['text', '5 mm']],
  tasks: [['document', recipe], ['object?', units]],
  explain: [['document', recipe], ['text', 'superfat']],
  materials: [],
  material: [['text', 'fat'], ['text', 'olive-oil']],
  alkali: [['text', 'naoh']],
  allergens: [],
  shown: [['text', '784.39 g'], ['text', 'oz'], ['count?', 2]],
  typed: [['text', '2,5'], ['text', 'oz']],
  stepDecimals: [['text', '0.1 g'], ['text', 'g']],
  rest: [['list', ['45 %', '24 %']], ['count', 0]],
  sharesOf: [['list', ['500 g', '375 g']]],
  makeRoom: [['list', ['50 %', '50 %']], ['text', '5 %']],
  label: [['document', recipe], ['object?', facts], ['document?', assessment]],
  labelPage: [['document', recipe], ['object?', facts], ['document?', assessment]],
  verdict: [['document', recipe], ['document?', assessment]],
  dossier: [['document', recipe]],
  dossierPage: [['document', recipe]],
  dossierCsv: [['document', recipe]],
  costPage: [['document', recipe], ['document', prices]],
  curePage: [['document', recipe], ['document', weighings], ['text?', '112 g']],
  cureSvg: [['document', weighings], ['count', 0]],
  recordPage: [['document', recipe], ['document', record], ['document?', undefined], ['list?', [trial]], ['document?', trial]],
  holds: [['document', record], ['document?', batch]],
  takeLog: [['document', record], ['document', batch]],
  trialPage: [['document', trial], ['document?', trial]],
  causes: [['document', recipe], ['text', 'ash'], ['count?', 0]],
  heat: [['document', recipe], ['document?', heat]],
  readHeat: [['document?', heat]],
  heatColour: [['text', '61.5 °C']],
  heatSvg: [['document', recipe], ['flag?', true], ['document?', heat]],
  blend: [['document', vector('blend/kitchen.json')]],
  certainty: [['document', recipe]],
  advice: [['document', recipe]],
  follow: [['document', batch], ['object?', units]],
};

const circle = {};
circle.self = circle;
const thrower = { toJSON: () => { throw new Error('mine'); } };
const HOSTILE = [
  undefined, null, 0, -0, 1, 12, -1, 0.5, 2 ** 31, 2 ** 32, 2 ** 32 + 1, 1e300, NaN, Infinity, -Infinity, 7n, true, false, Symbol('s'),
  '', ' ', '\0', '\ud800', 'NaN', '9'.repeat(5000), '[', '{}', 'null', '7', [], [[]], [7], [null], [undefined], ['x'], {}, { a: 7n },
  circle, thrower, () => 1, new Date(0), new Map(), new Proxy({}, {}), Object.create(null),
];

const kindOf = {
  text: (value) => typeof value === 'string',
  count: (value) => Number.isInteger(value) && value >= 0 && value < 2 ** 32,
  flag: (value) => typeof value === 'boolean',
  list: Array.isArray,
  // What else JSON says is for the reader of the document: here it is only of a type that it can be.
  document: (value) => typeof value === 'string' || (typeof value === 'object' && value !== null),
  object: (value) => typeof value === 'string' || (typeof value === 'object' && value !== null && !Array.isArray(value)),
};

function say(value) {
  try {
    return `${typeof value} ${String(JSON.stringify(value) ?? value.toString()).slice(0, 40)}`;
  } catch {
    return typeof value;
  }
}

/** A refusal: of the class, with problems, each with a message and what to do. */
function isTold(error, what) {
  assert.ok(!(error instanceof WebAssembly.RuntimeError), `${what} traps: ${error}`);
  assert.equal(error.name, 'LamellaError', `${what}: ${error}`);
  assert.ok(error.problems.length > 0, what);
  for (const problem of error.problems) {
    assert.ok(problem.code && problem.message && problem.advice, `${what}: ${JSON.stringify(problem)}`);
    assert.ok(problem.message.length < 700 && problem.advice.length < 700, `${what}: ${problem.message}`);
  }
}

const exported = Object.keys(lamella).filter((name) => !['default', 'initSync'].includes(name));
assert.deepEqual(Object.keys(FUNCTIONS).sort(), exported.sort(), 'a function has no row here');
const before = lamella.planJson(recipe);
let calls = 0;
for (const [name, taken] of Object.entries(FUNCTIONS)) {
  const good = taken.map(([, value]) => value);
  assert.doesNotThrow(() => lamella[name](...good), name);
  taken.forEach(([kind], index) => {
    const optional = kind.endsWith('?');
    const accepts = kindOf[kind.replace('?', '')];
    for (const value of HOSTILE) {
      const what = `${name}, argument ${index + 1}: ${say(value)}`;
      const left = value === undefined || value === null;
      let error;
      try {
        lamella[name](...good.with(index, value));
      } catch (thrown) {
        error = thrown;
      }
      calls += 1;
      if (error !== undefined) isTold(error, what);
      const may = left ? optional : accepts(value);
      assert.ok(may || error !== undefined, `${what} is taken without a word`);
      assert.ok(!(optional && left && error), `${what}: ${error}`);
      assert.equal(lamella.shown('784.39 g', 'oz', 2), '27.67', what);
    }
    if (!optional) assert.throws(() => lamella[name](...good.slice(0, index)), (error) => (isTold(error, name), true), name);
  });
  assert.equal(lamella.planJson(recipe), before, name);
}

/** The pointers and codes of what is wrong. */
function told(call) {
  try {
    call();
  } catch (error) {
    isTold(error, String(call));
    return error.problems.map((problem) => `${problem.pointer} ${problem.code}`);
  }
  return [];
}

// Facts of a label: every slip is told, all at once.
for (const make of [lamella.label, lamella.labelPage]) {
  const of = (facts) => told(() => make(recipe, facts));
  assert.deepEqual(of({ market: 'gb' }), ['/market field.word']);
  assert.deepEqual(of({ markt: 'great-britain' }), ['/markt field.unknown']);
  assert.deepEqual(of({ style: 'As-formed', batch: 7, nominal: '-5 g' }), ['/style field.word', '/batch field.type', '/nominal quantity.range']);
  assert.deepEqual(of({ nominal: '0 g' }), ['/nominal quantity.range']);
  assert.deepEqual(of({ nominal: 95 }), ['/nominal field.type']);
  assert.deepEqual(of({ nominal: null }), ['/nominal field.type']);
  assert.deepEqual(of({ precautions: 'Keep dry.' }), ['/precautions field.type']);
  assert.deepEqual(of({ precautions: ['Keep dry.', 7] }), ['/precautions/1 field.type']);
  assert.deepEqual(of({ market: undefined, nominal: '95 g' }), []);
}
assert.equal(lamella.label(recipe, { market: 'great-britain' }).ingredients.market, 'great-britain');
assert.deepEqual(told(() => lamella.sheet(recipe, { mass: 'cups', length: 3, degrees: '°F' })), [
  ' field.missing', '/mass quantity.unit.unknown', '/length field.type', '/degrees field.unknown',
]);
assert.deepEqual(told(() => lamella.tasks(recipe, { ...units, volume: 'mL' })), ['/volume field.unknown']);
// With the log of its batch a record is held against what that made of the recipe.
assert.ok(lamella.recordPage(recipe, record, batch).blocks.length > 0);
// Numbers that are none of what was asked for.
assert.deepEqual(told(() => lamella.shown(12, 'g')), [' call.argument']);
assert.deepEqual(told(() => lamella.shown('12 g', 'g', 13)), [' quantity.range']);
assert.equal(lamella.shown('12 g', 'g', 12), '12.000000000000');
assert.deepEqual(told(() => lamella.shown('12 g', 'g', '2')), [' call.argument']);
assert.deepEqual(told(() => lamella.stepDecimals('0.1 g', 'mm')), [' quantity.unit.unknown']);
assert.deepEqual(told(() => lamella.stepDecimals('0 g', 'g')), [' quantity.range']);
assert.deepEqual(told(() => lamella.curePage(recipe, weighings, '-5 g')), ['/fresh quantity.range']);
assert.deepEqual(told(() => lamella.curePage(recipe, weighings, '0 g')), ['/fresh quantity.range']);
assert.deepEqual(told(() => lamella.causes(recipe, 'Ash')), [' call.argument']);
assert.deepEqual(told(() => lamella.causes(recipe, 'ash', 1)), [' call.argument']);
assert.deepEqual(told(() => lamella.causes(recipe, 'ash', 0)), []);
assert.deepEqual(told(() => lamella.material('Fat', 'olive-oil')), [' call.argument']);
assert.deepEqual(told(() => lamella.alkali('lye')), [' call.argument']);
assert.deepEqual(told(() => lamella.costPage(recipe, { ...JSON.parse(prices), tax: '-5 %' })), ['/tax quantity.range']);
console.log(`${calls} calls of ${exported.length} functions`);
