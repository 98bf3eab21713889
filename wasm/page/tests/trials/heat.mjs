// Trials of heat: the picture in warmth, and what a block sets in.
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { open, close, mode, paper, thing, shot, sound, dropFile, here, page, DESK } from '../browser.mjs';

export default {
  /** The picture shows how warm the layers are, and what it sets in moves that. */
  async heat(device, label) {
    const one = await open(device);
    const { tab } = one;
    const bar = async () => {
      if (device !== DESK) await tab.getByRole('button', { name: /Bar/ }).first().click();
    };
    const degrees = async (name) => {
      const text = await tab.locator('.label', { hasText: name }).locator('.degrees').innerText();
      return Number(text.replace(/[^\d,.−-]/g, '').replace(',', '.'));
    };
    const band = () => tab.locator('.section .band').first().getAttribute('fill');
    const reckoned = () => tab.waitForFunction(() => document.querySelector('.bar.tinted:not(.old) .degrees'));
    const colours = await band();
    await tab.getByRole('radio', { name: 'warmth' }).check();
    await tab.getByText('Reckoning how warm it gets').waitFor();
    await reckoned();
    assert.notEqual(await band(), colours);
    const slider = tab.getByRole('slider', { name: /^When/ });
    assert.match(await slider.getAttribute('aria-valuetext'), /the hottest moment/);
    await sound(tab, 'warmth');
    await shot(tab, `${label}-warmth`);
    // By the keyboard, from the first pour to the end.
    const hottest = await degrees('Rust');
    await slider.focus();
    await tab.keyboard.press('Home');
    assert.match(await slider.getAttribute('aria-valuetext'), /^at the first pour/);
    assert.ok((await tab.locator('.label', { hasText: 'not poured yet' }).count()) > 3);
    await tab.keyboard.press('End');
    assert.match(await slider.getAttribute('aria-valuetext'), /^48\.0\sh after/);
    assert.ok((await degrees('Rust')) < hottest - 10);
    await tab.getByRole('button', { name: 'To the hottest moment' }).click();
    assert.equal(await degrees('Rust'), hottest);
    // The last forecast is greyed while the layers are the same, and gone when they are not.
    await tab.locator('.label', { hasText: 'Rust' }).click();
    await tab.getByLabel('Share of the bar').fill('26');
    await bar();
    assert.equal(await tab.locator('.bar.tinted.old .degrees').count() > 0, true);
    await reckoned();
    await tab.getByRole('button', { name: 'Add a layer on top' }).click();
    await bar();
    assert.equal(await tab.locator('.label .degrees').count(), 0);
    await tab.getByRole('button', { name: 'Undo', exact: true }).click();
    await reckoned();
    // Wrapped, it gets warmer; what cannot be is told at its field.
    const before = await degrees('Rust');
    await tab.getByRole('button', { name: 'Walls, wrapping, room' }).click();
    const panel = tab.locator('.setting');
    await panel.waitFor();
    await tab.waitForFunction(() => {
      const top = document.querySelector('.setting').getBoundingClientRect().top;
      return top > 0 && top < innerHeight;
    });
    await tab.getByRole('button', { name: 'Add to: Wrapped in' }).click();
    const thick = tab.getByLabel('Wrapped in: thickness of sheet 1');
    await thick.fill('5000');
    await panel.locator('.told').waitFor();
    await thick.fill('3 cm');
    await panel.locator('.told').waitFor({ state: 'detached' });
    await thick.blur();
    assert.equal(await thick.inputValue(), '30');
    // The blanket comes off after three hours.
    await tab.getByRole('button', { name: 'Something changes later' }).click();
    const from = tab.getByLabel('From, after the first pour');
    assert.equal(await from.inputValue(), '2');
    await from.fill('0');
    assert.match(await panel.locator('.told').first().innerText(), /rise/);
    await from.fill('30 h');
    await panel.locator('.told').waitFor({ state: 'detached' });
    await tab.getByRole('group', { name: 'Change 1' }).getByRole('button', { name: 'Wrapped in: leave out sheet 1' }).click();
    await sound(tab, 'setting');
    await shot(tab, `${label}-setting`);
    await bar();
    await reckoned();
    // What is being entered stays open when the forecast comes in.
    if (device === DESK) assert.ok(await panel.isVisible());
    assert.ok((await degrees('Rust')) > before, `${await degrees('Rust')} wrapped, ${before} not`);
    // Kept: the switch and the setting. The paper says the same, and gives it as a file.
    await tab.reload();
    await tab.waitForSelector('.bar.tinted');
    await mode(tab, 'Afterwards');
    await paper(tab, 'Heat');
    await tab.locator('.drawing svg').waitFor();
    assert.match(await tab.locator('.sheet').innerText(), /wrapped in 30\.0\smm of towel, blanket[\s\S]*from 30\.0\sh/);
    await tab.locator('summary', { hasText: 'Walls, wrapping, room' }).click();
    await tab.getByText('When each layer is poured').click();
    await tab.getByRole('button', { name: /^Say it of/ }).click();
    await tab.getByLabel(/is then at$/).last().fill('41,5');
    await tab.locator('.drawing svg').waitFor();
    await sound(tab, 'heat paper');
    await shot(tab, `${label}-heat-paper`);
    const [file] = await Promise.all([tab.waitForEvent('download'), tab.getByRole('button', { name: 'Save as a file' }).click()]);
    const path = join(mkdtempSync(join(tmpdir(), 'lamella-')), file.suggestedFilename());
    await file.saveAs(path);
    const saved = JSON.parse(readFileSync(path, 'utf8'));
    assert.equal(saved.surroundings[0].around[0].thickness, '3 cm');
    assert.deepEqual(saved.pours, [{ at: '0 min', temperature: '41.5 °C' }]);
    await tab.getByRole('button', { name: 'Back to the usual box' }).click();
    await tab.locator('.sheet', { hasText: 'not wrapped' }).waitFor();
    await dropFile(tab, 'bad-heat.json', JSON.stringify({ ...saved, walls: [{ sheet: 'glass', thickness: '3 mm' }] }));
    await tab.locator('.notice', { hasText: 'bad-heat.json cannot be opened: /walls/0/sheet' }).waitFor();
    await dropFile(tab, 'heat.json', JSON.stringify(saved));
    await tab.locator('.notice', { hasText: 'Opened heat.json' }).waitFor();
    await tab.locator('.sheet', { hasText: 'wrapped in' }).waitFor();
    await close(one);
  },

  /** What was kept when only the room was known is read as that room; the picture in the dark, in other units. */
  async 'heat kept from before'(device, label) {
    const one = await open(device, { colorScheme: 'dark', locale: 'de-DE' });
    const { tab } = one;
    const recipe = JSON.parse(readFileSync(join(here, '../../../core/data/example-recipe.json'), 'utf8'));
    const units = { mass: 'g', length: 'in', temperature: '°F', comma: '' };
    const old = JSON.stringify({ shelf: [{ id: 'h1', recipe, papers: { room: '15 °C' } }], current: 'h1', mode: 'plan', units });
    const { context } = one;
    const other = await context.newPage();
    await other.addInitScript((text) => {
      if (!sessionStorage.getItem('put')) localStorage.setItem('lamella/1', text);
      sessionStorage.setItem('put', 'yes');
    }, old);
    await other.goto(pathToFileURL(page).href);
    await other.waitForSelector('.bar');
    await other.getByRole('radio', { name: 'warmth' }).check();
    await other.waitForFunction(() => document.querySelector('.bar.tinted:not(.old) .degrees'));
    assert.match(await other.locator('.label .degrees').first().innerText(), /°F/);
    await sound(other, 'warmth in the dark');
    await shot(other, `${label}-warmth-dark`);
    await mode(other, 'Afterwards');
    await paper(other, 'Heat');
    assert.equal(await other.getByLabel('The room is at').inputValue(), '59');
    await other.locator('.drawing svg').waitFor();
    await sound(other, 'heat in the dark');
    await shot(other, `${label}-heat-dark`);
    // Without a mould there is no block, and that is said.
    await mode(other, 'Plan');
    await thing(other, 'Mould');
    await other.getByRole('button', { name: 'Take it away' }).click();
    if (device !== DESK) await other.getByRole('button', { name: /Bar/ }).first().click();
    await other.locator('.moment', { hasText: 'There is no mould to forecast a block in' }).waitFor();
    assert.equal(await other.locator('.label .degrees').count(), 0);
    await sound(other, 'no mould');
    await shot(other, `${label}-warmth-no-mould`, false);
    await close(one);
  },
};
