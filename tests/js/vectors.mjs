// `node vectors.mjs <folder of the module> <cases.json>`: every case of the file must give the bytes that Rust gave, and
// what a careless caller hands over must come back as an error.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const [pkg, casesFile] = process.argv.slice(2);
const { initSync, planJson, version } = await import(pathToFileURL(join(pkg, 'lamella_wasm.js')));
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
console.log(`${cases.cases.length} documents`);
