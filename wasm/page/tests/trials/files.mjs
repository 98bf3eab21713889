// Trials of files, links and where the page comes from.
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { close, DESK, dropFile, here, mode, open, page, paper, shot, sound } from '../browser.mjs';

export default {
  /** Nothing is asked of any network, and nothing can be. */
  async 'offline, from a file'(device) {
    const one = await open(device, { offline: true });
    const { tab, asked } = one;
    // The page itself, and the worker that it makes of its own script.
    const others = asked.filter((url) => !/^(file|blob|data):/.test(url));
    assert.deepEqual(others, []);
    const blocked = await tab.evaluate(() => fetch('https://example.org/').then(() => 'fetched', () => 'refused'));
    assert.equal(blocked, 'refused');
    const policy = await tab.locator('meta[http-equiv]').getAttribute('content');
    assert.match(policy, /default-src 'none'/);
    assert.doesNotMatch(policy, /unsafe-inline|'unsafe-eval'|https?:/);
    await one.context.close();
  },

  async 'a bad file dropped'(device) {
    const one = await open(device);
    const { tab } = one;
    for (const [name, text] of [
      ['letter.txt', 'Dear baker'],
      ['list.json', '[1, 2'],
      ['almost.json', '{"lamella": "recipe/1", "name": "x", "fats": [{"fat": "olive-oyl", "share": "100 %"}]}'],
      ['deep.json', '['.repeat(100_000)],
      ['newer.json', '{"lamella": "recipe/9"}'],
    ]) {
      await dropFile(tab, name, text);
      await tab.locator('.notice', { hasText: `${name} cannot be opened` }).waitFor();
      assert.equal(await tab.locator('h1').first().innerText(), 'Tidal strata');
    }
    await close(one);
  },

  async 'script in a name is text'(device) {
    const one = await open(device);
    const { tab } = one;
    const evil = '<img src=x onerror="document.title=1"><script>document.title=2</script>';
    const text = readFileSync(join(here, '../../../core/data/example-recipe.json'), 'utf8')
      .replaceAll('Tidal strata', evil.replaceAll('"', "'"))
      .replaceAll('"Rust"', JSON.stringify(evil.replaceAll('"', "'")));
    await dropFile(tab, 'evil.json', text);
    await tab.locator('.notice', { hasText: 'Opened' }).waitFor();
    assert.match(await tab.locator('h1').first().innerText(), /<script>/);
    await mode(tab, 'Afterwards');
    for (const name of ['Sheet', 'Label', 'Heat']) {
      await paper(tab, name);
      if (name === 'Heat') await tab.locator('.drawing svg').waitFor();
    }
    await mode(tab, 'Recipes');
    assert.match(await tab.title(), /<script>/);
    assert.equal(await tab.locator('main img, main script').count(), 0);
    await close(one);
  },

  async 'files, links, several recipes'(device) {
    const one = await open(device);
    const { tab, context } = one;
    await mode(tab, 'Recipes');
    const [file] = await Promise.all([tab.waitForEvent('download'), tab.getByRole('button', { name: 'Save' }).click()]);
    const path = join(mkdtempSync(join(tmpdir(), 'lamella-')), file.suggestedFilename());
    await file.saveAs(path);
    const saved = readFileSync(path, 'utf8');
    assert.deepEqual(JSON.parse(saved), JSON.parse(readFileSync(join(here, '../../../core/data/example-recipe.json'), 'utf8')));
    await tab.locator('input[type=file]').setInputFiles({
      name: 'second.json',
      mimeType: 'application/json',
      buffer: Buffer.from(saved.replace('Tidal strata', 'Second').replace('"superfat": "5 %"', '"superfat": "8 %"')),
    });
    await tab.locator('.notice', { hasText: 'Opened second.json' }).waitFor();
    await mode(tab, 'Recipes');
    await tab.getByRole('heading', { name: 'Compare two' }).waitFor();
    assert.match(await tab.locator('.compare table').innerText(), /superfat/);
    await sound(tab, 'compare');
    await shot(tab, `${device === DESK ? 'desk' : 'phone'}-compare`);
    await tab.getByRole('button', { name: 'Link' }).first().click();
    await tab.locator('.notice', { hasText: /link|address/ }).waitFor();
    const hash = await tab.evaluate(async () => location.hash || (await navigator.clipboard.readText().catch(() => '')));
    if (hash) {
      const other = await context.newPage();
      await other.goto(`${pathToFileURL(page).href}#${hash.split('#')[1]}`);
      await other.locator('.notice', { hasText: 'Opened The recipe of the link' }).waitFor();
    }
    await close(one);
  },

  /** The same file from a server. */
  async served(device) {
    if (device !== DESK) return;
    const server = createServer((_, response) => {
      response.setHeader('content-type', 'text/html');
      response.end(readFileSync(page));
    });
    await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
    const one = await open(device, { address: `http://127.0.0.1:${server.address().port}/` });
    await mode(one.tab, 'Afterwards');
    await paper(one.tab, 'Heat');
    await one.tab.locator('.drawing svg').waitFor();
    await close(one);
    server.close();
  },
};
