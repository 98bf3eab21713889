// `node vectors.mjs <folder of the module> <cases.json>`: every case of the file must give the bytes that Rust gave, and
// what a careless caller hands over must come back as an error.
import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';

const [pkg, casesFile] = process.argv.slice(2);
const lamella = await import(pathToFileURL(join(pkg, 'lamella_wasm.js')));
const { certainty, cureSvg, dossier, dossierCsv, heat, heatSvg, initSync, plan, planJson } = lamella;
const { readRecipe, sectionSvg, sheetMarkdown, sheetText, version } = lamella;
initSync({ module: readFileSync(join(pkg, 'lamella_wasm_bg.wasm')) });

/** The error that a text is refused with. */
function refusal(text) {
  try {
    planJson(text);
  } catch (error) {
    return error;
  }
  assert.fail(`no error for ${String(text).slice(0, 80)}`);
}

/** The sheets and papers that lie beside a golden vector. */
function golden(document, text) {
  const folder = dirname(document);
  const beside = (name) => {
    const file = join(folder, name);
    return existsSync(file) ? readFileSync(file, 'utf8') : undefined;
  };
  const same = (name, made) => {
    const wanted = beside(name);
    if (wanted !== undefined) {
      assert.equal(made(), wanted, join(folder, name));
      sheets += 1;
    }
  };
  if (!document.endsWith('recipe.json')) return;
  same('sheet.txt', () => sheetText(text));
  same('sheet.md', () => sheetMarkdown(text));
  same('section.svg', () => sectionSvg(text, 0));
  same('market/dossier.csv', () => dossierCsv(text));
  same('market/dossier.json', () => `${JSON.stringify(dossier(text), null, 2)}\n`);
}
let sheets = 0;

const cases = JSON.parse(readFileSync(casesFile, 'utf8'));
assert.equal(version(), cases.version);
for (const { document, expected, plans } of cases.cases) {
  const bytes = readFileSync(document);
  const text = bytes.toString('utf8');
  // JavaScript has no strings of broken UTF-8.
  if (!Buffer.from(text, 'utf8').equals(bytes)) continue;
  const wanted = readFileSync(expected, 'utf8');
  if (plans) {
    assert.equal(planJson(text), wanted, document);
    // As plain objects the same: in as an object, out as one.
    assert.deepEqual(plan(JSON.parse(text)), JSON.parse(wanted), document);
    assert.deepEqual(readRecipe(readRecipe(text)), readRecipe(text), document);
    golden(document, text);
  } else {
    const error = refusal(text);
    assert.equal(error.name, 'LamellaError', document);
    assert.deepEqual(error.problems, JSON.parse(wanted).problems, document);
  }
}

for (const [text, code] of [
  ['', 'document.json'],
  ['{}', 'field.missing'],
  ['\ud800', 'document.json'],
  ['\0', 'document.json'],
  ['[', 'document.json'],
  ['['.repeat(1 << 20), 'document.json'],
  [' '.repeat(2 << 20), 'document.size'],
]) {
  const error = refusal(text);
  assert.ok(error instanceof Error);
  assert.equal(error.name, 'LamellaError');
  assert.ok(error.problems.some((problem) => problem.code === code), `${error}`);
  assert.ok(error.message.includes(error.problems[0].message));
}
// Not a string: refused before it comes to the library, and the module goes on working.
for (const value of [undefined, null, 7n, {}]) assert.ok(refusal(value) instanceof Error);
assert.equal(planJson(readFileSync(cases.cases[0].document, 'utf8')), readFileSync(cases.cases[0].expected, 'utf8'));
const weighings = readFileSync(new URL('../../core/data/example-weighings.json', import.meta.url), 'utf8');
assert.equal(cureSvg(weighings, 1), readFileSync(new URL('../vectors/golden_books/curve.svg', import.meta.url), 'utf8'));
// What is reckoned in doubles is the same double everywhere.
const { recipe, ...readers } = cases.readers;
assert.deepEqual(certainty(recipe), readers.certainty);
assert.deepEqual(heat(recipe), readers.heat);
assert.equal(heatSvg(recipe, false), readers.heatSvg);
assert.ok(sheets >= 5, `${sheets} sheets`);
console.log(`${cases.cases.length} documents, ${sheets} sheets`);
