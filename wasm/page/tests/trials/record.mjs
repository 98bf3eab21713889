// Trials of the record and of a bar at the basin.
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { close, here, mode, open, paper, shot, sound, upTo } from '../browser.mjs';

export default {
  /** Every field of the record; the bench fills in what it knows. */
  async 'the record, whole'(device, label) {
    const one = await open(device);
    const { tab } = one;
    await mode(tab, 'At the bench');
    await tab.getByRole('button', { name: /begin/ }).click();
    await upTo(tab, /^Coconut oil$/);
    for (const [kind, field, text] of [
      ['A temperature was taken', 'It is', '38'],
      ['A note', 'What was seen or done', 'Trace came early.'],
      ['The alkali is not as planned', 'Its purity', '97'],
    ]) {
      await tab.getByRole('button', { name: 'Something else happened' }).click();
      await tab.getByRole('dialog').getByRole('button', { name: kind }).click();
      await tab.getByRole('dialog').getByLabel(field).fill(text);
      await tab.getByRole('button', { name: 'Put it into the log' }).click();
      await tab.locator('.said').waitFor();
    }
    await mode(tab, 'Afterwards');
    await paper(tab, 'Batch record');
    const form = tab.locator('.record');
    const fold = (title) => form.locator('details > summary', { hasText: title }).first().click();
    await form.getByLabel('Batch', { exact: true }).fill('2026-07');
    assert.match(await form.getByLabel('Begun').inputValue(), /^\d{4}-\d\d-\d\dT\d\d:\d\d$/);
    await form.getByLabel('Made by').fill('A. Maker');
    await form.getByLabel('Lot of Olive oil').fill('O7');
    await form.getByLabel('Supplier of Olive oil').fill('A mill');
    await form.locator('summary', { hasText: 'More of O7' }).click();
    await form.getByLabel('Number on the pack').fill('L-99');
    await form.getByLabel('Keeps until').fill('2027-01-31');
    // The bench's weighing goes to the lot; of two lots the maker says how much came from each.
    await form.getByText(/weighings of the bench have no lot yet/).waitFor();
    await form.getByRole('button', { name: 'Another lot of it' }).click();
    await form.getByLabel('Lot of Olive oil, 2').fill('O8');
    await form.locator('.problems', { hasText: 'from O7 or O8' }).waitFor();
    await form.locator('summary', { hasText: 'More of O8' }).click();
    await form.getByRole('button', { name: 'Take this lot out' }).last().click();
    await fold('Weighings');
    await form.locator('.from-bench li', { hasText: 'O7' }).waitFor();
    await fold('Temperatures');
    assert.match(await form.locator('.from-bench', { hasText: 'lye: 38' }).innerText(), /\d\d:\d\d/);
    await fold('What was seen and done');
    await form.locator('.from-bench', { hasText: 'Trace came early.' }).waitFor();
    await fold('What went otherwise');
    await form.getByRole('button', { name: 'Write what was done' }).click();
    await form.getByLabel('What was done about it').fill('The lye followed it.');
    await form.getByLabel('Good bars', { exact: true }).fill('nine');
    await form.locator('.told', { hasText: 'bars' }).waitFor();
    await form.getByLabel('Good bars', { exact: true }).fill('9');
    await form.getByLabel('Bars that were not good').fill('1');
    await fold('Tests');
    await form.getByRole('button', { name: 'A test' }).click();
    await form.getByLabel('What was tested').fill('look');
    await form.locator('.told', { hasText: 'result' }).waitFor();
    await form.getByLabel('What was found').fill('even');
    await fold('Equipment');
    await form.getByRole('button', { name: 'A piece of equipment' }).click();
    await form.getByLabel('What it is').fill('stick blender');
    await fold('Scales held');
    await form.getByRole('button', { name: 'A check of a scale' }).click();
    await form.getByLabel('The known weight').fill('200');
    await form.getByLabel('The scale showed').last().fill('200,1');
    await fold('Cure, samples');
    await form.getByLabel('The cure counts from').fill('2026-03-05');
    await form.getByLabel('Bars that are kept').fill('2');
    await form.getByLabel('Decided', { exact: true }).selectOption('held');
    await form.getByLabel('Decided by').fill('A. Maker');
    await form.getByLabel('Decided on').fill('2026-04-20');
    await fold('Formula, marks');
    await form.getByLabel('Version of the formula').fill('3');
    await form.getByLabel('Mark on the bar').fill('TS-7');
    const text = await tab.locator('.sheet').innerText();
    for (const word of ['2026-07', 'L-99', 'Trace came early.', 'The lye followed it.', 'stick blender', 'TS-7', 'even']) {
      assert.ok(text.includes(word), `the record does not say ${word}`);
    }
    await sound(tab, 'record');
    await shot(tab, `${label}-record`);
    const [file] = await Promise.all([tab.waitForEvent('download'), tab.getByRole('button', { name: 'Save the record' }).click()]);
    const path = join(mkdtempSync(join(tmpdir(), 'lamella-')), file.suggestedFilename());
    await file.saveAs(path);
    const saved = JSON.parse(readFileSync(path, 'utf8'));
    assert.deepEqual(saved.output, { bars: 9, rejected: 1 });
    assert.equal(saved.weighings[0].lot, 'O7');
    assert.match(saved.weighings[0].at, /^\d{4}-\d\d-\d\d \d\d:\d\d$/);
    assert.equal(saved.release.decision, 'held');
    // A new record keeps lots, people and equipment; the file brings the old one back.
    tab.on('dialog', (dialog) => void dialog.accept());
    await tab.getByRole('button', { name: 'Begin a new record' }).click();
    assert.equal(await form.getByLabel('Batch', { exact: true }).inputValue(), '');
    assert.equal(await form.getByLabel('Lot of Olive oil').inputValue(), 'O7');
    const put = (name, text) => tab.locator('.after input[type=file]').setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
    await put('bad.json', '{"lamella": "record/1"}');
    await form.locator('.told', { hasText: 'bad.json cannot be opened' }).waitFor();
    await put('record.json', JSON.stringify(saved));
    await tab.locator('.sheet h1', { hasText: '2026-07' }).waitFor();
    await tab.reload();
    await tab.waitForSelector('.top');
    await mode(tab, 'Afterwards');
    await paper(tab, 'Batch record');
    assert.equal(await form.getByLabel('Batch', { exact: true }).inputValue(), '2026-07');
    // What the bench knew is in the record when the bench is cleared.
    await mode(tab, 'At the bench');
    await tab.getByRole('button', { name: 'Clear the bench' }).click();
    await mode(tab, 'Afterwards');
    await paper(tab, 'Batch record');
    assert.match(await tab.locator('.sheet').innerText(), /O7[\s\S]*Trace came early/);
    await close(one);
  },

  /** What an older page kept of the record is still there. */
  async 'a record that was kept before'(device) {
    const one = await open(device);
    const { tab } = one;
    const recipe = JSON.parse(readFileSync(join(here, '../../../core/data/example-recipe.json'), 'utf8'));
    const papers = {
      record: { batch: '5', started: '2025-03-04T10:20', operator: 'B. Maker', bars: '12' },
      lots: [{ material: 'olive-oil', lot: 'O1', supplier: 'A mill' }],
    };
    const state = { shelf: [{ id: 'm1', recipe, papers }], current: 'm1', mode: 'plan' };
    await one.context.addInitScript((text) => localStorage.setItem('lamella/1', text), JSON.stringify(state));
    await tab.reload();
    await tab.waitForSelector('.top');
    await mode(tab, 'Afterwards');
    await paper(tab, 'Batch record');
    const form = tab.locator('.record');
    assert.equal(await form.getByLabel('Batch', { exact: true }).inputValue(), '5');
    assert.equal(await form.getByLabel('Begun').inputValue(), '2025-03-04T10:20');
    assert.equal(await form.getByLabel('Made by').inputValue(), 'B. Maker');
    assert.equal(await form.getByLabel('Good bars', { exact: true }).inputValue(), '12');
    assert.equal(await form.getByLabel('Lot of Olive oil').inputValue(), 'O1');
    // Without the bench the maker says that all went as planned.
    await form.locator('summary', { hasText: 'Weighings' }).click();
    await form.getByRole('button', { name: 'All was weighed as planned' }).click();
    assert.match(await tab.locator('.sheet').innerText(), /O1[\s\S]*olive|Olive[\s\S]*O1/);
    await close(one);
  },

  /** A bar at the basin, beside the usual one of another recipe. */
  async 'a bar is tried'(device, label) {
    const one = await open(device);
    const { tab } = one;
    await mode(tab, 'Afterwards');
    await paper(tab, 'At the basin');
    await tab.getByLabel('How high it stands at once').fill('80');
    await tab.getByLabel('How many washes').fill('20');
    await tab.getByLabel('The bar weighs before').fill('98,2');
    await tab.getByLabel('and after, dried').fill('91');
    assert.match(await tab.locator('.sheet').innerText(), /0\.36 g each/);
    await tab.getByRole('button', { name: 'This is the usual bar' }).click();
    await tab.getByLabel('How high it stands at once').fill('100');
    assert.match(await tab.locator('.sheet').innerText(), /Beside the usual bar, batch 1, Tidal strata[\s\S]*100 mm[\s\S]*80 mm/);
    await tab.getByLabel('and after, dried').fill('120');
    await tab.locator('.told', { hasText: /less|before/ }).first().waitFor();
    await tab.getByLabel('and after, dried').fill('91');
    await shot(tab, `${label}-basin`);
    await sound(tab, 'basin');
    await tab.reload();
    await mode(tab, 'Afterwards');
    await paper(tab, 'At the basin');
    assert.match(await tab.locator('.sheet').innerText(), /Beside the usual bar/);
    await close(one);
  },
};
