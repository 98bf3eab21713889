// A layer that got too much lye stays on hold, on every page of the batch, until a test of it is recorded.
import assert from 'node:assert/strict';
import { card, close, done, mode, open, paper, shot, sound, upTo } from '../browser.mjs';

/** Everything to the end, with so much lye in the jug of Rust. */
async function poured(tab, lye) {
  await mode(tab, 'At the bench');
  await tab.getByRole('button', { name: /begin/ }).click();
  await upTo(tab, /^Lye into Rust$/);
  await tab.getByLabel(/really went in/).fill(lye);
  await done(tab);
  for (let count = 0; count < 200; count += 1) {
    const title = await card(tab);
    if (/^(All is done|Poured, and on hold)$/.test(title)) return title;
    await done(tab);
  }
  assert.fail('the work has no end');
}

const held = (tab) => tab.locator('.held');

async function test(tab, found) {
  await held(tab).getByText('Record a test of Rust').click();
  await held(tab).getByLabel(/Free caustic alkali/).fill(found);
  await held(tab).getByRole('button', { name: 'Put the test into the log' }).click();
}

/** The papers of the batch, and whether they say that a layer is on hold. */
async function papersSay(tab, hold) {
  await mode(tab, 'Afterwards');
  for (const name of ['Sheet', 'Label', 'Composition', 'Batch record']) {
    await paper(tab, name);
    assert.equal(await held(tab).count(), hold ? 1 : 0, name);
  }
  await paper(tab, 'Label');
  const label = await tab.locator('.after').innerText();
  assert.equal(/There is no label while a layer is on hold/.test(label), hold, 'label');
  assert.equal(/Ingredients:/.test(label), !hold, 'label');
  await paper(tab, 'Sheet');
  assert.equal(/not to be used, sold or given away/.test(await tab.locator('.after').innerText()), hold, 'sheet');
}

export default {
  async 'a hold is not forgotten'(device, label) {
    const one = await open(device);
    const { tab } = one;
    assert.equal(await poured(tab, '84'), 'Poured, and on hold');
    assert.match(await held(tab).innerText(), /Rust: superfat −[\d.]+\s%/);
    await sound(tab, 'held bench');
    await shot(tab, `${label}-held-bench`);
    await papersSay(tab, true);
    await paper(tab, 'Label');
    await sound(tab, 'held label');
    await shot(tab, `${label}-held-label`);
    await mode(tab, 'At the bench');
    // Too much free alkali ends nothing.
    await test(tab, '0.08');
    assert.match(await held(tab).innerText(), /tested: 0.080/);
    await tab.reload();
    await tab.waitForSelector('.held');
    assert.equal(await card(tab), 'Poured, and on hold');
    await test(tab, '0.02');
    await held(tab).waitFor({ state: 'detached' });
    assert.equal(await card(tab), 'All is done');
    await papersSay(tab, false);
    await close(one);
  },

  /** The bench is cleared, and the record that took its log over keeps the hold. */
  async 'a hold outlives the bench'(device) {
    const one = await open(device);
    const { tab } = one;
    await poured(tab, '84');
    tab.on('dialog', (dialog) => void dialog.accept());
    await tab.getByRole('button', { name: 'Clear the bench' }).click();
    await tab.getByRole('button', { name: /begin/ }).waitFor();
    await mode(tab, 'Afterwards');
    for (const name of ['Label', 'Batch record', 'Cost']) {
      await paper(tab, name);
      assert.equal(await held(tab).count(), 1, name);
    }
    await paper(tab, 'Label');
    assert.doesNotMatch(await tab.locator('.after').innerText(), /Ingredients:/);
    await close(one);
  },

  /** Lye as planned: no hold, and a label. */
  async 'what went as planned is not on hold'(device) {
    const one = await open(device);
    const { tab } = one;
    assert.equal(await poured(tab, ''), 'All is done');
    await papersSay(tab, false);
    await close(one);
  },
};
