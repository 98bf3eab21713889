// Trials of the plan: the job from first open to printed label, the picture, the fats.
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { close, DESK, done, dropFile, here, mode, open, paper, PHONE, shot, shots, SMALL, sound, thing, upTo } from '../browser.mjs';

export default {
  /** The whole job from first open to the printed label. */
  async 'whole job'(device, label) {
    const one = await open(device);
    const { tab } = one;
    await shot(tab, `${label}-first`, false);
    await sound(tab, 'first');
    // A layer by its picture: what is in it, and an edit that shows.
    const before = await tab.locator('.label', { hasText: 'Rust' }).innerText();
    await tab.locator('.label', { hasText: 'Rust' }).click();
    await tab.getByLabel('Share of the bar').fill('24');
    await shot(tab, `${label}-layer`);
    await sound(tab, 'layer');
    if (device !== DESK) await tab.getByRole('button', { name: /Bar/ }).first().click();
    assert.notEqual(await tab.locator('.label', { hasText: 'Rust' }).innerText(), before);
    // A fat more, found by its INCI name; the others make room.
    await thing(tab, 'Fats');
    await tab.getByLabel('Add a fat').fill('helianthus');
    await tab.locator('.found li').first().click();
    await tab.getByLabel('Share of Olive oil').waitFor();
    await shot(tab, `${label}-fats`);
    await sound(tab, 'fats');
    await tab.getByRole('button', { name: /Find shares/ }).click();
    // One that the recipe does not have, to choose from as well.
    await tab.getByLabel('Choose from another fat as well').fill('orbignya');
    await tab.locator('.found li[role=option]').first().click();
    await tab.locator('.candidate', { hasText: 'Babassu' }).waitFor();
    await tab.getByText('Prices and stock').click();
    await tab.getByLabel('Stock of Coconut oil').fill('0');
    await tab.getByLabel('lauric and myristic, C12–C14, at least').fill('10');
    await tab.getByLabel('poly-unsaturated, at most').fill('12');
    await tab.getByRole('button', { name: 'Search' }).click();
    await tab.locator('.words-of-blend').waitFor();
    await sound(tab, 'blend');
    await shot(tab, `${label}-blend`, false);
    await tab.getByRole('button', { name: 'Use these shares' }).click();
    await tab.getByLabel('Share of Babassu').waitFor();
    await tab.getByRole('button', { name: /safe side/ }).click();
    await tab.getByRole('button', { name: /^Aim for/ }).click();
    if (device !== DESK) await tab.getByRole('button', { name: /Bar/ }).first().click();
    for (const name of ['Lye', 'Mould', 'Workshop', 'Batch']) {
      await thing(tab, name);
      await sound(tab, name);
      await shot(tab, `${label}-${name}`);
      if (device !== DESK) await tab.getByRole('button', { name: /Bar/ }).first().click();
    }
    // Where a figure comes from.
    await tab.locator('.figure', { hasText: 'superfat' }).first().click();
    await tab.getByRole('dialog').waitFor();
    assert.match(await tab.getByRole('dialog').innerText(), /alkali demand[\s\S]*saponification value/);
    await sound(tab, 'basis');
    await tab.getByRole('button', { name: 'Close' }).click();
    // At the bench, from the first thing to the last.
    await mode(tab, 'At the bench');
    assert.match(await tab.locator('.safety').innerText(), /never water into lye/);
    await tab.getByRole('button', { name: /begin/ }).click();
    await shot(tab, `${label}-bench`);
    await sound(tab, 'bench');
    await upTo(tab, /^Pour Silt$/);
    await shot(tab, `${label}-pour`);
    await sound(tab, 'pour');
    assert.match(await tab.locator('.safety').innerText(), /Lye burns/);
    await upTo(tab, /^All is done$/);
    await shot(tab, `${label}-all-done`);
    // Afterwards, straight to the label: everything reads, and the label prints.
    await tab.getByRole('button', { name: 'The label' }).click();
    await tab.getByLabel('Net quantity of a bar').waitFor();
    for (const name of ['Sheet', 'Label', 'Composition', 'Cost', 'Cure', 'Batch record', 'Heat', 'What went wrong']) {
      await paper(tab, name);
      if (name === 'Heat') await tab.locator('.drawing svg').waitFor();
      await sound(tab, name);
      await shot(tab, `${label}-${name.replaceAll(' ', '-')}`, name !== 'Sheet');
    }
    await paper(tab, 'Label');
    await tab.getByLabel('Net quantity of a bar').fill('95');
    await tab.getByLabel('Batch', { exact: true }).fill('7');
    const sheet = await tab.locator('.sheet').innerText();
    assert.match(sheet, /Olea Europaea[\s\S]*Sodium Hydroxide/);
    assert.match(sheet, /95 g/);
    await tab.emulateMedia({ media: 'print' });
    assert.ok(!(await tab.locator('.top').isVisible()));
    assert.ok(await tab.locator('.sheet').isVisible());
    // Paper is white, whatever the light of the screen is.
    await tab.emulateMedia({ media: 'print', colorScheme: 'dark' });
    const paperColour = await tab.locator('.sheet').evaluate((sheet) => getComputedStyle(sheet).backgroundColor);
    assert.equal(paperColour, 'rgb(255, 255, 255)');
    const pdf = await tab.pdf({ format: 'A4' }).catch(() => undefined);
    if (pdf) writeFileSync(join(shots, `${label}-label.pdf`), pdf);
    await close(one);
  },

  /** An edge dragged by the mouse moves both its layers. */
  async 'drag an edge'(device) {
    if (device !== DESK) return;
    const one = await open(device);
    const { tab } = one;
    await tab.locator('.label', { hasText: 'Rust' }).click();
    const share = () => tab.getByLabel('Share of the bar').inputValue();
    const before = await share();
    const grip = tab.locator('.section .edge.near').last();
    const box = await grip.boundingBox();
    await tab.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await tab.mouse.down();
    for (let step = 1; step <= 6; step += 1) await tab.mouse.move(box.x + box.width / 2, box.y + box.height / 2 - step);
    await tab.mouse.up();
    assert.notEqual(await share(), before);
    await close(one);
  },

  async 'household, and a mould of every shape'(device) {
    if (device !== DESK) return;
    const one = await open(device);
    const { tab } = one;
    await thing(tab, 'Batch');
    await tab.getByLabel('the household').check();
    assert.match(await tab.locator('.safety').innerText(), /Before any of it is sold or given away/);
    await thing(tab, 'Mould');
    for (const shape of ['tapered loaf', 'slab', 'upright cylinder', 'lying cylinder', 'tray', 'loaf']) {
      await tab.getByLabel('Shape', { exact: true }).selectOption(shape);
      assert.equal(await tab.locator('.trouble').count(), 0, shape);
      assert.ok((await tab.locator('.section .band').count()) > 0, shape);
    }
    await mode(tab, 'Afterwards');
    await paper(tab, 'Label');
    assert.match(await tab.locator('.after').innerText(), /household[\s\S]*sold/i);
    await close(one);
  },

  /** What may be lye-heavy at the worst is told calmly and apart from what is planned so. */
  async 'a superfat that may be lye-heavy'(device, label) {
    if (device === PHONE) {
      const one = await open(SMALL);
      await one.tab.locator('.may-be-told').waitFor();
      assert.ok(await one.tab.locator('.labels .may-be:visible').first().isVisible());
      await sound(one.tab, 'may be, small');
      await shot(one.tab, 'small-may-be');
      await close(one);
    }
    for (const colorScheme of ['light', 'dark']) {
      const one = await open(device, { colorScheme });
      const { tab } = one;
      await tab.locator('.may-be-told').waitFor();
      assert.equal(await tab.locator('.heavy').count(), 0);
      assert.match(await tab.locator('.labels').innerText(), /Foam[^]*?superfat 5\.0\s%,?\s+may be −0\.1/);
      await tab.locator('.may-be-told summary').click();
      await sound(tab, 'may be');
      await shot(tab, `${label}-may-be-${colorScheme}`);
      await tab.getByRole('button', { name: /safe side/ }).click();
      await tab.getByRole('button', { name: /^Aim for/ }).click();
      await tab.locator('.may-be-told').waitFor({ state: 'detached' });
      assert.equal(await tab.locator('.may-be').count(), 0);
      const text = readFileSync(join(here, '../../../core/data/example-recipe.json'), 'utf8').replace('"superfat": "5 %"', '"superfat": "0 %"');
      await dropFile(tab, 'heavy.json', text);
      await tab.locator('.labels .heavy:visible').first().waitFor();
      assert.match(await tab.locator('.labels').innerText(), /superfat 0\.0\s%,?\s+lye-heavy/);
      assert.match(await tab.locator('.may-be-told').innerText(), /may well be lye-heavy/);
      await sound(tab, 'heavy');
      await shot(tab, `${label}-heavy-${colorScheme}`);
      await close(one);
    }
  },

  /** Fats that are stated by weight stay so when the shares of a blend are taken, and the batch as large as it was. */
  async 'a blend of fats by weight'(device, label) {
    for (const screen of device === PHONE ? [PHONE, SMALL] : [DESK]) {
      const one = await open(screen);
      const { tab } = one;
      await thing(tab, 'Fats');
      await tab.getByLabel('by weight').check();
      // There and back keeps the shares.
      await tab.getByLabel('in per cent').check();
      assert.match(await tab.getByLabel('Share of Olive oil').inputValue(), /^40(\.0\d*)?$/);
      await tab.getByLabel('by weight').check();
      assert.match(await tab.getByLabel('Share of Olive oil').inputValue(), /^398/);
      await tab.getByRole('button', { name: /Find shares/ }).click();
      await tab.getByLabel('lauric and myristic, C12–C14, at least').fill('18');
      await tab.getByLabel('palmitic and stearic, saturated from C15, at least').fill('20');
      await tab.getByLabel('poly-unsaturated, at most').fill('12');
      await tab.getByLabel('iodine value, at most').fill('70');
      await tab.getByRole('button', { name: 'Search' }).click();
      await tab.locator('.words-of-blend').waitFor();
      const beyond = await tab.locator('.words-of-blend .scroll').evaluateAll((all) => all.map((one) => one.scrollWidth - one.clientWidth));
      assert.ok(beyond.every((wide) => wide <= 1), `a table scrolls sideways: ${beyond}`);
      await sound(tab, 'blend by weight');
      await shot(tab, `${screen === SMALL ? 'small' : label}-blend-by-weight`, false);
      await tab.getByRole('button', { name: 'Use these shares' }).click();
      assert.equal(await tab.locator('.trouble').count(), 0);
      assert.ok(await tab.getByLabel('by weight').isChecked());
      assert.ok(Number(await tab.getByLabel('Share of Coconut oil').inputValue()) > 250);
      const weights = await tab.locator('.panel > .rows input').evaluateAll((all) => all.map((input) => Number(input.value)));
      const sum = weights.reduce((a, b) => a + b, 0);
      assert.ok(weights.length > 0 && Math.abs(sum - 995.7) < 1, `${weights} come to ${sum} g`);
      await shot(tab, `${screen === SMALL ? 'small' : label}-blended-by-weight`, false);
      await close(one);
    }
  },
};
