// Trials of suppliers' certificates.
import assert from 'node:assert/strict';
import { close, DESK, mode, open, paper, shot, sound, thing } from '../browser.mjs';

export default {
  /** What a supplier's certificate states goes before the library, is kept while it is unfinished, and can be taken away. */
  async 'certificates'(device, label) {
    const one = await open(device);
    const { tab } = one;
    const back = async () => device !== DESK && (await tab.getByRole('button', { name: /Bar/ }).first().click());
    const dialog = tab.getByRole('dialog');
    const alkali = () => tab.locator('.figure', { hasText: 'sodium hydroxide' }).first().innerText();
    await thing(tab, 'Lye');
    const before = await alkali();
    await back();
    // A fat: one figure moves the lye, and the row says why.
    await thing(tab, 'Fats');
    const olive = tab.locator('.rows > li', { hasText: 'Olea Europaea' });
    await olive.locator('.known').click();
    await dialog.getByRole('button', { name: /supplier’s certificate/ }).click();
    await dialog.getByLabel('Saponification value').fill('186,5');
    assert.match(await dialog.locator('.standing').innerText(), /With the certificate: sodium hydroxide [\s\S]*By the library’s figures/);
    assert.match(await dialog.locator('.certificate').innerText(), /library: 190 \(184 to 196\) mg KOH\/g/);
    await dialog.getByLabel('Density at 20 °C').fill('0.914');
    await dialog.getByText('Names on the label').click();
    await dialog.getByLabel('INCI', { exact: true }).fill('Olea Europaea Fruit Oil');
    // What cannot be is told at its field; what was reckoned with before still is.
    await dialog.getByLabel('Iodine value').fill('900');
    assert.match(await dialog.locator('.told').first().innerText(), /outside 0 g I2\/100 g to 500/);
    await dialog.getByLabel('Iodine value').fill('85');
    assert.equal(await dialog.locator('.told').count(), 0);
    await dialog.getByText('Fatty acids', { exact: true }).click();
    await dialog.getByLabel('oleic, C18:1').fill('20');
    assert.match(await dialog.locator('.standing').innerText(), /not reckoned with yet[\s\S]*sum to 20 %/);
    await sound(tab, 'certificate');
    await dialog.locator('.certificate').evaluate((part) => part.scrollIntoView());
    await shot(tab, `${label}-certificate`, false);
    await dialog.getByRole('button', { name: 'Close' }).click();
    assert.match(await olive.innerText(), /certificate not finished/);
    assert.equal(await tab.locator('.trouble').count(), 0);
    // The page comes back where it was.
    await tab.reload();
    await olive.locator('.known').click();
    assert.equal(await dialog.getByLabel('oleic, C18:1').inputValue(), '20');
    await dialog.getByLabel('linoleic, C18:2').fill('79');
    assert.match(await dialog.locator('.certificate').innerText(), /1\.0\s%? is not stated/);
    await dialog.getByRole('button', { name: 'Close' }).click();
    assert.match(await olive.innerText(), /by certificate/);
    await sound(tab, 'fats by certificate');
    await shot(tab, `${label}-certified-fats`, false);
    await back();
    await thing(tab, 'Lye');
    assert.notEqual(await alkali(), before);
    // The alkali.
    await tab.getByLabel('give or take').fill('0.5');
    await tab.getByLabel('Sodium hydroxide is pure to').fill('120');
    assert.match(await tab.locator('.own .told').innerText(), /outside 10 % to 100 %/);
    await tab.getByLabel('Sodium hydroxide is pure to').fill('99');
    assert.match(await tab.locator('.own').innerText(), /by certificate[\s\S]*library: 98 \(95 to 100\) %/);
    await sound(tab, 'lye by certificate');
    await tab.locator('.own').getByRole('button', { name: /Back to the library/ }).click();
    assert.equal(await tab.getByLabel('Sodium hydroxide is pure to').inputValue(), '');
    await back();
    // Back to the library, and everything is as it was.
    await thing(tab, 'Fats');
    await olive.locator('.known').click();
    await dialog.getByRole('button', { name: /Back to the library/ }).click();
    await dialog.getByRole('button', { name: 'Close' }).click();
    assert.doesNotMatch(await olive.innerText(), /certificate/);
    await back();
    // A scent: its allergens come to the label.
    await tab.locator('.label', { hasText: 'Slate' }).click();
    const rosemary = tab.locator('.known', { hasText: 'Rosemary' });
    await rosemary.click();
    await dialog.getByRole('button', { name: /supplier’s certificate/ }).click();
    await dialog.getByLabel('Its name or number').fill('RO-117');
    await dialog.getByLabel('Amendment').fill('51');
    await dialog.getByLabel('At most in the finished bar').fill('0');
    assert.match(await dialog.locator('.told').first().innerText(), /above nought/);
    await dialog.getByLabel('At most in the finished bar').fill('2,5');
    await dialog.getByLabel('Flash point').fill('45');
    await dialog.getByLabel('Vanillin').fill('0');
    await dialog.getByLabel('Add an allergen').fill('linal');
    await dialog.locator('.found li', { hasText: 'Linalool' }).click();
    assert.match(await dialog.locator('.standing').innerText(), /not reckoned with yet/);
    await dialog.getByLabel('Share of Linalool').fill('4');
    assert.match(await dialog.locator('.standing').innerText(), /goes by its certificate/);
    await sound(tab, 'certificate of a scent');
    await dialog.locator('.certificate').evaluate((part) => part.scrollIntoView());
    await shot(tab, `${label}-certificate-scent`, false);
    await dialog.getByRole('button', { name: 'Close' }).click();
    assert.match(await rosemary.innerText(), /by certificate/);
    // The same bottle in another layer.
    await back();
    await tab.locator('.label', { hasText: 'Foam' }).click();
    await tab.getByLabel('Add to Foam').fill('rosemary');
    await tab.locator('.found li[role=option]', { hasText: 'scent' }).first().click();
    await rosemary.waitFor();
    assert.doesNotMatch(await rosemary.innerText(), /by certificate/);
    await back();
    await tab.locator('.label', { hasText: 'Slate' }).click();
    await rosemary.click();
    await dialog.getByRole('button', { name: /The same for all/ }).click();
    await dialog.getByRole('button', { name: 'Close' }).click();
    await back();
    await tab.locator('.label', { hasText: 'Foam' }).click();
    assert.match(await rosemary.innerText(), /by certificate/);
    await mode(tab, 'Afterwards');
    await paper(tab, 'Label');
    assert.match(await tab.locator('.sheet').innerText(), /Linalool/);
    await close(one);
  },
};
