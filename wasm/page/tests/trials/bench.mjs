// Trials of the bench.
import assert from 'node:assert/strict';
import { card, close, done, mode, open, shot, sound, upTo } from '../browser.mjs';

export default {
  async 'reload in mid-batch'(device) {
    const one = await open(device);
    const { tab } = one;
    await mode(tab, 'At the bench');
    await tab.getByRole('button', { name: /begin/ }).click();
    await upTo(tab, /^Fat from the pot into Rust$/);
    // The scale really showed less: the rest follows.
    await tab.getByLabel(/really went in/).fill('150,0');
    await done(tab);
    await tab.locator('.changed').waitFor();
    assert.match(await tab.locator('.changed').innerText(), /its lye/);
    const next = await card(tab);
    await upTo(tab, /^Let Silt set$/);
    await tab.getByRole('button', { name: '15 min' }).click();
    await tab.reload();
    await tab.waitForSelector('.card');
    assert.equal(await card(tab), 'Let Silt set');
    assert.match(await tab.locator('.clock').innerText(), /^1[45]:/);
    // Undo goes back through what was done, and what was entered is gone with it.
    for (let count = 0; count < 20; count += 1) {
      if ((await card(tab)) === 'Fat from the pot into Rust') break;
      await tab.getByRole('button', { name: 'Undo', exact: true }).click();
    }
    assert.equal(await card(tab), 'Fat from the pot into Rust');
    await done(tab);
    assert.equal(await card(tab), next);
    await tab.locator('.changed').waitFor({ state: 'detached' });
    await close(one);
  },

  /** A comma that may set off thousands is asked about with both readings, and nothing goes into the log. */
  async 'a comma of two readings'(device) {
    const one = await open(device);
    const { tab } = one;
    await mode(tab, 'At the bench');
    await tab.getByRole('button', { name: /begin/ }).click();
    await upTo(tab, /^Olive oil$/);
    await tab.getByLabel(/really went in/).fill('1,500');
    await done(tab);
    assert.equal(await card(tab), 'Olive oil');
    assert.match(await tab.locator('.card .told').innerText(), /1500 g.*1\.500 g/);
    await tab.getByLabel(/really went in/).fill('400,5');
    await done(tab);
    assert.notEqual(await card(tab), 'Olive oil');
    await close(one);
  },

  async 'what cannot be is told'(device) {
    const one = await open(device);
    const { tab } = one;
    await mode(tab, 'At the bench');
    await tab.getByRole('button', { name: /begin/ }).click();
    await upTo(tab, /^Fat from the pot into Rust$/);
    await tab.getByLabel(/really went in/).fill('9999');
    await done(tab);
    assert.equal(await card(tab), 'Fat from the pot into Rust');
    assert.ok((await tab.locator('.card .told').innerText()).length > 10);
    await close(one);
  },

  /** What no step asks for goes into the log, and out of it again; what cannot have happened is told at its field. */
  async 'everything can be reported'(device, label) {
    const one = await open(device);
    const { tab } = one;
    const dialog = tab.getByRole('dialog');
    const other = async (kind) => {
      await tab.getByRole('button', { name: 'Something else happened' }).click();
      await dialog.getByRole('button', { name: kind, exact: true }).click();
    };
    const hand = () => dialog.getByRole('button', { name: 'Put it into the log' }).click();
    const said = (text) => tab.locator('.said', { hasText: text }).waitFor();
    await mode(tab, 'At the bench');
    await tab.getByRole('button', { name: /begin/ }).click();
    await upTo(tab, /^Olive oil$/);
    await tab.getByRole('button', { name: 'Something else happened' }).click();
    await sound(tab, 'what else');
    await shot(tab, `${label}-else`, false);
    // The alkali is weaker than it says on the tub.
    await dialog.getByRole('button', { name: 'The alkali is not as planned' }).click();
    await dialog.getByLabel('Its purity').fill('9');
    await hand();
    assert.match(await dialog.locator('.told').innerText(), /outside 10 % to 100 %/);
    await dialog.getByLabel('Its purity').fill('96');
    await sound(tab, 'found');
    await hand();
    await said('sodium hydroxide of 96');
    await tab.locator('.changed').waitFor();
    // A fat beside the plan, found in the library.
    await other('More went in');
    await dialog.getByLabel('What', { exact: true }).fill('helianthus');
    await dialog.locator('.found li').first().click();
    await hand();
    assert.match(await dialog.locator('.told').innerText(), /missing/);
    await dialog.getByLabel('How much more').fill('12,5');
    await sound(tab, 'added');
    await shot(tab, `${label}-added`, false);
    await hand();
    await said('12.5');
    assert.match(await tab.locator('.changed').innerText(), /total|lye|Sunflower/);
    assert.equal(await card(tab), 'Olive oil');
    // It is in already, and no work that is still to be done.
    await tab.getByText('All the work').click();
    assert.equal(await tab.locator('.all button', { hasText: 'Sunflower' }).count(), 0);
    // What cannot be.
    await other('Some stays behind');
    await dialog.getByLabel('In', { exact: true }).selectOption('lye');
    await dialog.getByLabel('How much stays').fill('99999');
    await hand();
    assert.match(await dialog.locator('.told').innerText(), /not enough/);
    await dialog.getByLabel('How much stays').fill('4');
    await hand();
    await said('Stays in the vessel of the lye');
    await other('A temperature was taken');
    await dialog.getByLabel('the fats').check();
    await dialog.getByLabel('It is').fill('41');
    await hand();
    await said('Fats measured: 41');
    await other('A note');
    await dialog.getByLabel('What was seen or done').fill('The window was open.');
    await hand();
    await said('The window was open.');
    // Undo takes back what was reported last.
    await tab.getByRole('button', { name: 'Undo', exact: true }).click();
    const list = tab.locator('.log > li');
    await tab.getByText(/^What was reported/).click();
    assert.equal(await list.filter({ hasText: 'window' }).count(), 0);
    // A figure is put right at its place, and an entry taken back; both are kept.
    const count = await list.count();
    await list.filter({ hasText: 'Sunflower' }).locator('summary').click();
    await list.filter({ hasText: 'Sunflower' }).getByLabel('It was really').fill('14');
    await list.filter({ hasText: 'Sunflower' }).getByRole('button', { name: 'Change it' }).click();
    await list.filter({ hasText: /Sunflower.*14/ }).waitFor();
    await sound(tab, 'log');
    await shot(tab, `${label}-log`);
    await list.filter({ hasText: 'Stays in' }).locator('summary').click();
    await list.filter({ hasText: 'Stays in' }).getByRole('button', { name: 'Take it back' }).click();
    await list.filter({ hasText: 'Stays in' }).waitFor({ state: 'detached' });
    await tab.reload();
    await tab.waitForSelector('.card');
    await tab.getByText(/^What was reported/).click();
    assert.equal(await list.count(), count - 1);
    assert.match(await list.filter({ hasText: 'Sunflower' }).innerText(), /14.*\d\d:\d\d/s);
    // Too little lye in a jug: what puts it right is asked for, and goes into the log as it was weighed.
    await upTo(tab, /^Lye into Rust$/);
    await tab.getByLabel(/really went in/).fill('60');
    await done(tab);
    await tab.locator('.corrections', { hasText: 'Rust' }).waitFor();
    await tab.getByText('It is put right').click();
    await tab.getByLabel(/^Water into Rust/).fill('11');
    await sound(tab, 'put right');
    await shot(tab, `${label}-put-right`);
    await tab.getByRole('button', { name: /^It is in/ }).click();
    await tab.locator('.wrong-batch h3', { hasText: 'Rust:' }).waitFor({ state: 'detached' });
    assert.equal(await card(tab), 'Pour Rust');
    assert.match(await tab.locator('.log').innerText(), /Water, distilled into Rust: 11[\s\S]*sodium hydroxide into Rust/);
    // A layer poured before its turn in the list, by mass: its step is done with it.
    await other('A layer was poured');
    await dialog.getByLabel('Which').selectOption('Rust');
    await dialog.getByLabel('How much was poured').fill('99999');
    await hand();
    assert.match(await dialog.locator('.told').innerText(), /only/);
    await dialog.getByLabel('How much was poured').fill('200');
    await hand();
    await said('Rust poured');
    await tab.getByText('All the work').click();
    await tab.locator('.all .done', { hasText: 'Pour Rust' }).waitFor();
    await close(one);
  },
};
