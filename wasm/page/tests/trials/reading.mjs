// Trials of how the page reads: units, decimal signs, light, keys, narrow screens.
import assert from 'node:assert/strict';
import { close, DESK, mode, open, paper, PHONE, shot, SMALL, sound, thing, upTo } from '../browser.mjs';

export default {
  async 'units, comma, light and dark, keys'(device) {
    const one = await open(device, { locale: 'de-DE', colorScheme: 'dark' });
    const { tab } = one;
    await tab.locator('.label', { hasText: 'Rust' }).click();
    await tab.getByLabel('Share of the bar').fill('18,5');
    assert.equal(await tab.locator('.told').count(), 0);
    await tab.getByLabel('Share of the bar').blur();
    assert.equal(await tab.getByLabel('Share of the bar').inputValue(), '18,5');
    await tab.getByLabel('Share of the bar').fill('viel');
    assert.ok((await tab.locator('.told').first().innerText()).length > 5);
    await tab.getByLabel('Share of the bar').fill('18,5');
    assert.match(await tab.locator('.figure', { hasText: 'poured' }).first().innerText(), /\d+,\d\sg/);
    await tab.getByRole('button', { name: 'Units' }).click();
    await tab.getByLabel('ounces').check();
    await tab.getByLabel('inches').check();
    await tab.getByLabel('°F', { exact: true }).check();
    await sound(tab, 'units');
    await tab.getByRole('button', { name: 'Close' }).click();
    assert.match(await tab.locator('.figure', { hasText: 'poured' }).first().innerText(), /oz/);
    assert.match(await tab.locator('.figure', { hasText: 'stands' }).first().innerText(), /in/);
    await sound(tab, 'dark');
    await shot(tab, `${device === DESK ? 'desk' : 'phone'}-dark-ounces`);
    // An edge by the keyboard.
    const edge = tab.getByRole('slider').last();
    const at = await edge.getAttribute('aria-valuenow');
    await edge.focus();
    await tab.keyboard.press('PageUp');
    await tab.waitForFunction(([at]) => [...document.querySelectorAll('[role=slider]')].at(-1).getAttribute('aria-valuenow') !== at, [at]);
    await close(one);
  },

  /** The sheet and the bench in the units that the maker reads. */
  async 'papers in ounces'(device) {
    const one = await open(device);
    const { tab } = one;
    await mode(tab, 'Afterwards');
    const sheet = async (weigh, height, warm) => {
      for (const title of [`weigh, ${weigh}`, `up to, ${height}`]) {
        assert.ok((await tab.locator(`.sheet td[data-title="${title}"]`).count()) > 5, title);
      }
      assert.match(await tab.locator('.sheet').innerText(), new RegExp(`Let it come to \\d+ ${warm}`));
    };
    await sheet('g', 'mm', '°C');
    await tab.getByRole('button', { name: 'Units' }).click();
    for (const name of ['ounces', 'inches', '°F']) await tab.getByLabel(name, { exact: true }).check();
    await tab.getByRole('button', { name: 'Close' }).click();
    await sheet('oz', 'in', '°F');
    await mode(tab, 'At the bench');
    await tab.getByRole('button', { name: /begin/ }).click();
    await upTo(tab, /^Divide|^Fat from the pot/);
    assert.doesNotMatch(await tab.locator('.card').innerText(), /\d g\b/);
    await close(one);
  },

  async 'at 320 pixels'(device) {
    if (device !== PHONE) return;
    for (const colorScheme of ['light', 'dark']) {
      const one = await open(SMALL, { colorScheme });
      const { tab } = one;
      await sound(tab, 'first');
      await shot(tab, `small-${colorScheme}`);
      await tab.getByRole('radio', { name: 'warmth' }).check();
      await tab.waitForFunction(() => document.querySelector('.bar.tinted:not(.old) .degrees'));
      await sound(tab, 'warmth');
      await shot(tab, `small-${colorScheme}-warmth`);
      await thing(tab, 'Mould');
      await tab.locator('summary', { hasText: 'Walls, wrapping, room' }).click();
      await sound(tab, 'setting');
      await shot(tab, `small-${colorScheme}-setting`);
      await tab.getByRole('button', { name: /Bar/ }).first().click();
      await tab.getByRole('radio', { name: 'colour' }).check();
      await tab.locator('.label', { hasText: 'Silt' }).click();
      await sound(tab, 'layer');
      await shot(tab, `small-${colorScheme}-layer`);
      await mode(tab, 'At the bench');
      await tab.getByRole('button', { name: /begin/ }).click();
      await upTo(tab, /^Pour Silt$/);
      await sound(tab, 'pour');
      await shot(tab, `small-${colorScheme}-pour`);
      await tab.getByText(/^What was reported/).click();
      await tab.locator('.log summary').first().click();
      await tab.getByRole('button', { name: 'Something else happened' }).click();
      await sound(tab, 'what else');
      await tab.getByRole('dialog').getByRole('button', { name: 'The alkali is not as planned' }).click();
      await sound(tab, 'the alkali');
      await shot(tab, `small-${colorScheme}-found`, false);
      await tab.getByRole('button', { name: 'Close' }).click();
      await mode(tab, 'Afterwards');
      await sound(tab, 'sheet');
      await paper(tab, 'Batch record');
      await tab.getByLabel('Lot of Olive oil').fill('O7');
      await tab.locator('.record').evaluate((form) => form.querySelectorAll('details').forEach((part) => (part.open = true)));
      for (const name of ['A weighing', 'A test', 'A check of a scale', 'Something else']) await tab.getByRole('button', { name, exact: true }).click();
      await sound(tab, 'record');
      await shot(tab, `small-${colorScheme}-record`);
      await close(one);
    }
  },
};
