// Trials of what is stored: two tabs, damaged states, a storage that takes nothing; and of Back and Forward.
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { transformWithOxc } from 'vite';
import { browser, card, close, DESK, done, here, mode, open, page, paper, shot, sound, thing, upTo } from '../browser.mjs';

const example = JSON.parse(readFileSync(join(here, '../../../core/data/example-recipe.json'), 'utf8'));
const address = pathToFileURL(page).href;

/** Another tab of the same browser; `deaf` is one that sleeps: it hears nothing of what the others store. */
async function another(one, deaf = false) {
  const tab = await one.context.newPage();
  tab.on('pageerror', (error) => one.wrong.push(error.message));
  if (deaf) {
    await tab.addInitScript(() => {
      globalThis.deaf = true;
      addEventListener('storage', (event) => globalThis.deaf && event.stopImmediatePropagation(), true);
    });
  }
  await tab.goto(address);
  await tab.waitForSelector('.bar, .card, h1');
  return tab;
}

const hide = (tab) =>
  tab.evaluate(() => {
    Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true });
    document.dispatchEvent(new Event('visibilitychange'));
  });
const show = (tab) =>
  tab.evaluate(() => {
    globalThis.deaf = false;
    delete document.visibilityState;
    document.dispatchEvent(new Event('visibilitychange'));
  });
/** What was changed is stored. */
const stored = (tab) => tab.waitForTimeout(700);
const begin = async (tab) => {
  await mode(tab, 'At the bench');
  await tab.getByRole('button', { name: /begin/ }).click();
};
const count = async (tab) => Number(/^(\d+) of/.exec(await tab.locator('.way p').innerText())[1]);
const shelf = (tab) => tab.locator('.shelf-of-recipes button.known').allInnerTexts();
const all = (tab) => tab.evaluate(() => Object.fromEntries(Object.entries(localStorage)));
const asides = async (tab) => Object.entries(await all(tab)).filter(([key]) => key.startsWith('lamella/aside/')).map(([, text]) => text);
/** Lets a tab be loaded with what is wanted in its storage, whatever the page before it wrote when it went. */
const canLoad = (tab) =>
  tab.addInitScript(() => {
    if (!window.name.startsWith('put:')) return;
    localStorage.clear();
    for (const [key, text] of Object.entries(JSON.parse(window.name.slice(4)))) localStorage.setItem(key, text);
    window.name = '';
  });
let loads = 0;
/** Loads the page anew with this in its storage, and nothing else. */
async function loadWith(tab, entries) {
  await tab.evaluate((given) => void (window.name = `put:${JSON.stringify(given)}`), entries);
  await tab.goto(`${address}?${(loads += 1)}`);
  await tab.waitForSelector('#app > *');
}
/** A browser of its own, with this in its storage when the page is first loaded. */
async function openWith(device, entries) {
  const context = await browser.newContext({ ...device, locale: 'en-GB', acceptDownloads: true });
  const tab = await context.newPage();
  const wrong = [];
  tab.on('pageerror', (error) => wrong.push(error.message));
  await tab.addInitScript((given) => {
    if (localStorage.length > 0) return;
    for (const [key, text] of Object.entries(given)) localStorage.setItem(key, text);
  }, entries);
  await tab.goto(address);
  await tab.waitForSelector('#app > *');
  return { context, tab, wrong };
}
const superfat = (tab) => tab.getByLabel('Superfat', { exact: true });
const lye = (tab) => thing(tab, 'Lye');
async function downloaded(tab, button) {
  const [file] = await Promise.all([tab.waitForEvent('download'), button.click()]);
  const path = join(mkdtempSync(join(tmpdir(), 'lamella-')), 'file');
  await file.saveAs(path);
  return readFileSync(path, 'utf8');
}

/** Something of everything: a batch under way, papers, two recipes, settings. */
async function much(tab) {
  await mode(tab, 'Recipes');
  await tab.getByRole('button', { name: 'Begin a new one' }).click();
  await mode(tab, 'Recipes');
  await tab.locator('.known', { hasText: 'Tidal strata' }).click();
  await tab.getByRole('button', { name: 'Units' }).click();
  await tab.getByLabel('ounces').check();
  await tab.getByRole('button', { name: 'Close' }).click();
  await begin(tab);
  await upTo(tab, /^Fat from the pot into Rust$/);
  await mode(tab, 'Afterwards');
  await paper(tab, 'Batch record');
  await tab.locator('.record').getByLabel('Batch', { exact: true }).fill('2026-11');
  await tab.locator('.record').getByLabel('Lot of Olive oil').fill('O7');
  await paper(tab, 'Cost');
  await tab.getByLabel('Pay of an hour').fill('20');
  await tab.getByLabel('Price of a pack of Olive oil').fill('9');
  await paper(tab, 'Cure');
  await tab.getByLabel('The bar weighs').fill('4');
  await tab.getByRole('button', { name: 'Add', exact: true }).click();
  await paper(tab, 'At the basin');
  await tab.getByLabel('How high it stands at once').fill('3');
  await tab.getByRole('button', { name: 'This is the usual bar' }).click();
  await paper(tab, 'Heat');
  await tab.locator('summary', { hasText: 'Walls, wrapping, room' }).click();
  await tab.getByRole('button', { name: 'Add to: Wrapped in' }).click();
  await mode(tab, 'Plan');
  await stored(tab);
  return all(tab);
}

/** A module of the page without its types, for what needs no browser. */
async function module(path) {
  const file = join(here, '../src', path);
  const { code } = await transformWithOxc(readFileSync(file, 'utf8'), file);
  return import(`data:text/javascript,${encodeURIComponent(code)}`);
}

export default {
  /** What two tabs made of one bench: steps of both, and nothing where both cannot be so. */
  async 'benches are merged'(device) {
    if (device !== DESK) return;
    const { benchOf, merged, covers, joined, ticked } = await module('kept/merge.ts');
    const step = (key, mass, at) => ({ key, event: { weighed: key, mass, at } });
    const bench = (log, more = {}) => ({ done: log.map((one) => one.key), at: '', log, timers: {}, begun: 5, recipe: '{}', ...more });
    const [a, b, c] = [step('a', '1 g', '2026-11-28 09:01'), step('b', '2 g', '2026-11-28 09:02'), step('c', '3 g', '2026-11-28 09:03')];
    const keys = (found) => found.log.map((one) => one.key).join('');
    // Steps of both, by the clock; what both have once.
    assert.equal(keys(benchOf(bench([a]), bench([a, b]), bench([a, c]))), 'abc');
    assert.equal(keys(benchOf(bench([a]), bench([a, b]), bench([a, { ...b, event: { ...b.event, at: '2026-11-28 09:09' } }, c]))), 'abc');
    assert.equal(keys(benchOf(bench([a, b]), bench([a]), bench([a, b, c]))), 'ac');
    assert.deepEqual(benchOf(bench([a, b]), bench([a]), bench([a, b, c])).done, ['a', 'c']);
    // A figure that one of them has put right; two that differ.
    const right = step('a', '9 g', '2026-11-28 09:01');
    assert.equal(benchOf(bench([a]), bench([right]), bench([a, b])).log[0].event.mass, '9 g');
    assert.equal(benchOf(bench([a]), bench([right]), bench([step('a', '8 g', '2026-11-28 09:01')])), undefined);
    assert.equal(benchOf(bench([]), bench([a]), bench([right])), undefined);
    // Cleared beside work; begun in both; begun on two recipes.
    const clear = bench([], { begun: 0, recipe: '' });
    assert.equal(benchOf(bench([a]), clear, bench([a, b])), undefined);
    assert.equal(benchOf(clear, bench([a], { begun: 7 }), bench([b])).begun, 5);
    assert.equal(benchOf(clear, bench([a], { recipe: '{"name":"x"}' }), bench([b])), undefined);
    // Papers field by field.
    assert.deepEqual(merged({ x: 1, y: { z: 1 } }, { x: 2, y: { z: 1 } }, { x: 1, y: { z: 3 } }), { value: { x: 2, y: { z: 3 } } });
    assert.deepEqual(merged({ x: 1, y: 1 }, { y: 1 }, { x: 1, y: 2 }), { value: { y: 2 } });
    assert.equal(merged({ x: 1 }, { x: 2 }, { x: 3 }), undefined);
    // Who knows whose saves.
    const [one, other] = [ticked(ticked({}, 'p'), 'p'), ticked({ p: 1 }, 'q')];
    assert.deepEqual([one, other, covers(one, other), covers(other, one), covers(joined(one, other), one)], [{ p: 2 }, { p: 1, q: 1 }, false, false, true]);
    let clock = { first: 1 };
    for (let tab = 0; tab < 24; tab += 1) clock = ticked(clock, `t${tab}`);
    assert.deepEqual([Object.keys(clock).length, clock.first, clock.t23], [24, undefined, 1]);
  },

  /** A tab that was only looked at writes nothing when it is hidden, left or closed. */
  async 'an old tab does no harm'(device) {
    const one = await open(device);
    const { tab } = one;
    // Something is stored before the other tab comes.
    await begin(tab);
    await stored(tab);
    const [hidden, left, shut] = [await another(one, true), await another(one, true), await another(one, true)];
    for (let step = 0; step < 6; step += 1) await done(tab);
    await mode(tab, 'Recipes');
    await tab.getByRole('button', { name: 'Begin a new one' }).click();
    await stored(tab);
    await hide(hidden);
    await left.goto('about:blank');
    await shut.close({ runBeforeUnload: true });
    await tab.reload();
    await tab.waitForSelector('.top');
    await mode(tab, 'Recipes');
    assert.equal((await shelf(tab)).length, 2);
    await tab.locator('.known', { hasText: 'Tidal strata' }).click();
    await mode(tab, 'At the bench');
    assert.equal(await count(tab), 6);
    // The hidden one has it all when it is looked at again.
    await show(hidden);
    await mode(hidden, 'At the bench');
    assert.equal(await count(hidden), 6);
    await close(one);
  },

  /** Each tab shows what the other has done, and neither takes anything from it. */
  async 'two tabs at two recipes'(device) {
    const one = await open(device);
    const { tab } = one;
    await mode(tab, 'Recipes');
    await tab.getByRole('button', { name: 'Begin a new one' }).click();
    await stored(tab);
    const other = await another(one);
    await mode(other, 'Recipes');
    await other.getByRole('button', { name: 'The example' }).click();
    await lye(other);
    await mode(tab, 'Plan');
    await thing(tab, 'Fats');
    await Promise.all([superfat(tab).fill('3'), other.getByLabel('Strength of the lye').fill('31')]);
    await stored(other);
    const texts = async (page) => {
      await mode(page, 'Recipes');
      return (await shelf(page)).length;
    };
    assert.equal(await texts(tab), 3);
    assert.equal(await texts(other), 3);
    const recipes = Object.entries(await all(tab)).filter(([key]) => key.endsWith('/recipe')).map(([, text]) => JSON.parse(text).value);
    assert.deepEqual(recipes.map((recipe) => [recipe.name, recipe.superfat]).sort(), [['New bar', '3 %'], ['Tidal strata', '5 %'], ['Tidal strata', '5 %']]);
    assert.ok(recipes.some((recipe) => recipe.name === 'Tidal strata' && recipe.water.lye_concentration === '31 %'));
    await close(one);
  },

  /** Of two changes of one recipe the later stands; the earlier is a copy, and both tabs are told. */
  async 'two tabs at one recipe'(device, label) {
    const one = await open(device);
    const { tab } = one;
    await thing(tab, 'Fats');
    await superfat(tab).fill('6');
    await stored(tab);
    const other = await another(one, true);
    await thing(other, 'Fats');
    assert.equal(await superfat(other).inputValue(), '6');
    await superfat(tab).fill('7');
    await stored(tab);
    await superfat(other).fill('8');
    await stored(other);
    for (const page of [tab, other]) {
      await page.locator('.message', { hasText: '“Tidal strata” was changed in two tabs at the same time' }).waitFor();
      assert.equal(await superfat(page).inputValue(), '8');
    }
    await sound(other, 'two tabs');
    await shot(other, `${label}-two-tabs`, false);
    await tab.getByRole('button', { name: 'Show the copy' }).click();
    await thing(tab, 'Fats');
    assert.equal(await superfat(tab).inputValue(), '7');
    await mode(tab, 'Recipes');
    assert.match((await shelf(tab))[0], /a copy: the earlier of two changes/);
    assert.equal((await shelf(tab)).length, 2);
    // A change that the other tab has seen is no conflict; here it can be undone.
    await show(other);
    await mode(other, 'Plan');
    await mode(tab, 'Recipes');
    await tab.locator('.known').nth(1).click();
    await thing(tab, 'Fats');
    await superfat(tab).fill('9');
    await other.waitForFunction(() => [...document.querySelectorAll('.panel input')].some((input) => input.value === '9'));
    await other.keyboard.press('Control+z');
    await tab.waitForFunction(() => [...document.querySelectorAll('.panel input')].some((input) => input.value === '8'));
    assert.equal(await tab.locator('.message').count(), 0);
    await close(one);
  },

  /** A recipe deleted in one tab is gone from the other, but not what was changed there. */
  async 'deleted in another tab'(device) {
    const one = await open(device);
    const { tab } = one;
    tab.on('dialog', (dialog) => void dialog.accept());
    await mode(tab, 'Recipes');
    for (const name of ['Begin a new one', 'The example', 'Begin a new one']) {
      await tab.getByRole('button', { name }).click();
      await mode(tab, 'Recipes');
    }
    await stored(tab);
    const [other, deaf] = [await another(one), await another(one, true)];
    await mode(other, 'Recipes');
    await mode(deaf, 'Plan');
    await thing(deaf, 'Fats');
    await tab.getByRole('button', { name: 'Delete New bar' }).first().click();
    await other.locator('.message', { hasText: '“New bar” was deleted in another tab.' }).waitFor();
    assert.equal((await shelf(other)).length, 3);
    await superfat(deaf).fill('4');
    await deaf.locator('.message', { hasText: 'deleted in another tab, but had been changed in this one: it is kept' }).waitFor();
    await tab.waitForFunction(() => document.querySelectorAll('.shelf-of-recipes button.known').length === 4);
    await close(one);
  },

  /** Steps of one batch that were done in two tabs are all in it. */
  async 'two tabs at one bench'(device) {
    const one = await open(device);
    const { tab } = one;
    await begin(tab);
    for (let step = 0; step < 3; step += 1) await done(tab);
    await stored(tab);
    const other = await another(one);
    await mode(other, 'At the bench');
    assert.equal(await count(other), 3);
    await done(other);
    await tab.waitForFunction(() => document.querySelector('.way p').textContent.startsWith('4 '));
    await other.close();
    // One that hears nothing goes on, and so does the first: at the scale, and with another step.
    const deaf = await another(one, true);
    await mode(deaf, 'At the bench');
    await upTo(tab, /^Fat from the pot into Rust$/);
    const here = await count(tab);
    const last = deaf.locator('.all button', { hasText: /^Let Silt set/ });
    await deaf.locator('summary', { hasText: 'All the work' }).click();
    await last.click();
    await deaf.locator('.steps button.big').last().click();
    assert.equal(await count(deaf), here + 1);
    await tab.waitForFunction((wanted) => document.querySelector('.way p').textContent.startsWith(`${wanted} `), here + 1);
    // Both say what the same weighing was, and not the same: one is a copy.
    await deaf.evaluate(() => (globalThis.deaf = true));
    await deaf.locator('.all button', { hasText: /^Fat from the pot into Rust/ }).click();
    await tab.getByLabel(/really went in/).fill('150,0');
    await done(tab);
    await deaf.getByLabel(/really went in/).fill('151,0');
    await done(deaf);
    await deaf.locator('.message', { hasText: 'was changed in two tabs' }).waitFor();
    const logs = Object.entries(await all(deaf)).filter(([key]) => key.endsWith('/bench')).map(([, text]) => JSON.parse(text).value);
    assert.equal(logs.length, 2);
    const masses = logs.map((bench) => bench.log.filter((entry) => entry.key.includes('Rust') || entry.event.weighed === 'pot').map(({ event }) => event.mass));
    assert.ok(masses.flat().includes('150.0 g') && masses.flat().includes('151.0 g'), JSON.stringify(masses));
    await close(one);
  },

  /** What an older page stored under one key is all there, and stored anew. */
  async 'stored by an older page'(device) {
    const one = await open(device);
    const { tab } = one;
    await canLoad(tab);
    const begun = { done: ['wear'], at: '', log: [], timers: {}, begun: 1_700_000_000_000, recipe: JSON.stringify(example) };
    const papers = { fresh: '110 g', record: { batch: '7' }, prices: { lamella: 'prices/1', currency: 'GBP', materials: [] } };
    const old = JSON.stringify({
      shelf: [
        { id: 'b1', recipe: { ...example, name: 'Second' }, papers },
        { id: 'a1', recipe: example, bench: begun },
      ],
      current: 'a1', mode: 'after', paper: 'cure', units: { mass: 'oz', length: 'in', temperature: '°F', comma: ',' }, theme: 'dark',
    });
    await loadWith(tab, { 'lamella/1': old });
    assert.equal(await tab.locator('.papers .here').innerText(), 'Cure');
    assert.equal(await tab.evaluate(() => document.documentElement.dataset.theme), 'dark');
    assert.equal((await all(tab))['lamella/1'], undefined);
    await tab.reload();
    await tab.waitForSelector('.papers');
    await mode(tab, 'Recipes');
    assert.deepEqual((await shelf(tab)).map((text) => /^(Second|Tidal strata)/.exec(text)[1]), ['Second', 'Tidal strata']);
    assert.match((await shelf(tab))[1], /on the bench/);
    const kept = await all(tab);
    assert.deepEqual(JSON.parse(kept['lamella/2/a1/recipe']).value, example);
    assert.deepEqual(JSON.parse(kept['lamella/2/a1/bench']).value, begun);
    assert.equal(JSON.parse(kept['lamella/2/b1/papers']).value.record.batch, '7');
    assert.equal(JSON.parse(kept['lamella/2/b1/papers']).value.fresh, '110 g');
    assert.equal(JSON.parse(kept['lamella/2/settings']).value.units.mass, 'oz');
    assert.deepEqual(await asides(tab), []);
    // An older page in another tab that stores its own state again takes nothing away: it comes as copies.
    const again = JSON.stringify({ shelf: [{ id: 'a1', recipe: { ...example, note: 'older' } }], current: 'a1' });
    await loadWith(tab, { ...kept, 'lamella/1': again });
    await mode(tab, 'Recipes');
    assert.equal((await shelf(tab)).length, 3);
    assert.deepEqual(JSON.parse((await all(tab))['lamella/2/a1/recipe']).value, example);
    await close(one);
  },

  /** What cannot be read is kept as it was, said, and handed out; everything else is there. */
  async 'a damaged state is kept aside'(device, label) {
    const first = await open(device);
    const good = await much(first.tab);
    await close(first);
    const bench = Object.keys(good).find((key) => key.endsWith('/bench') && good[key].includes('Tidal'));
    const recipe = bench.replace('bench', 'recipe');
    const other = Object.keys(good).find((key) => key.endsWith('/recipe') && key !== recipe);
    const old = JSON.stringify({ shelf: [{ id: 'x', recipe: { ...example, name: 'Whole' } }, { id: 'y', recipe: example }] });
    for (const [key, text, what, recipes] of [
      [bench, 'not JSON', /the bench of “Tidal strata”/, ['New bar', 'Tidal strata']],
      [other, '{"clock":{},"value":[1,2,3]}', /a recipe/, ['Tidal strata']],
      [other, good[other].slice(0, 200), /a recipe/, ['Tidal strata']],
      // The bench has the recipe too.
      [recipe, '', /a recipe/, ['New bar', 'Tidal strata']],
      ['lamella/2/settings', '7', /the settings/, ['New bar', 'Tidal strata']],
      ['lamella/1', old.slice(0, old.length - 300), /an older page/, ['New bar', 'Tidal strata', 'Whole']],
      ['lamella/1', '\u0000\u0001', /an older page/, ['New bar', 'Tidal strata']],
    ]) {
      const one = await openWith(device, { ...good, [key]: text });
      const { tab } = one;
      const message = tab.locator('.message', { hasText: 'could not be read' });
      assert.match(await message.innerText(), what);
      assert.ok((await asides(tab)).includes(text), `${key} is not kept`);
      const file = await downloaded(tab, message.getByRole('button', { name: 'Download it' }));
      assert.ok(file === text || Object.values(JSON.parse(file)).includes(text), file);
      await mode(tab, 'Recipes');
      assert.deepEqual((await shelf(tab)).map((one) => one.split('\n')[0].replace(/\s*\d+ layers.*/, '')).sort(), recipes, key);
      // Said once; what is kept stays listed until it is deleted. Looked at in another tab: a tab of such a short-lived browser
      // that is loaded again is at times handed an empty storage by the browser, before a line of the page has run.
      await stored(tab);
      const again = await one.context.newPage();
      await again.goto(address);
      await mode(again, 'Recipes');
      await again.waitForSelector('.asides');
      assert.equal(await again.locator('.message').count(), 0);
      assert.ok((await asides(again)).includes(text), `${key} is not kept`);
      await close(one);
    }
    // Half a log has the steps of its first half.
    const cut = good[bench].slice(0, good[bench].lastIndexOf('"key"'));
    const one = await openWith(device, { ...good, [bench]: cut });
    const { tab } = one;
    await tab.locator('.message', { hasText: 'the bench of “Tidal strata”' }).waitFor();
    await sound(tab, 'kept aside');
    await shot(tab, `${label}-kept-aside`, false);
    const left = await tab.evaluate((key) => localStorage.getItem(key), bench);
    assert.ok((await asides(tab)).includes(cut), left);
    await mode(tab, 'Recipes');
    await shot(tab, `${label}-kept-aside-list`);
    await sound(tab, 'kept aside, listed');
    await close(one);
  },

  /** Whatever is stored, the page shows something that can be used, and what it could not read is kept. */
  async 'no stored state leaves a blank page'(device) {
    const one = await open(device);
    const { tab } = one;
    await canLoad(tab);
    const good = await much(tab);
    let seed = device === DESK ? 2026 : 1128;
    const dice = (sides) => {
      seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
      return Math.floor((seed / 2 ** 32) * sides);
    };
    const junk = [null, true, 7, -1e300, '', 'x', [], {}, [null], [[]], { a: { b: [] } }, ['x'], { length: 3 }, '9'.repeat(40)];
    const nodes = (thing, path = []) =>
      typeof thing === 'object' && thing !== null ? Object.keys(thing).flatMap((key) => [[...path, key], ...nodes(thing[key], [...path, key])]) : [];
    const mutations = [
      (text) => text.slice(0, dice(text.length)),
      (text) => text.slice(dice(text.length)),
      (text) => {
        const at = dice(text.length);
        return text.slice(0, at) + String.fromCharCode(dice(128)) + text.slice(at + 1);
      },
      (text) => {
        const [from, to] = [dice(text.length), dice(text.length)].sort((a, b) => a - b);
        return text.slice(0, from) + text.slice(to);
      },
      ...Array.from({ length: 6 }, () => (text) => {
        let whole;
        try {
          whole = JSON.parse(text);
        } catch {
          return `${text}}`;
        }
        if (typeof whole !== 'object' || whole === null) return '[';
        for (let count = dice(3); count >= 0; count -= 1) {
          const all = nodes(whole);
          if (all.length === 0) break;
          const path = all[dice(all.length)];
          const last = path.pop();
          const parent = path.reduce((inner, key) => inner[key], whole);
          if (dice(4) === 0) delete parent[last];
          else parent[last] = junk[dice(junk.length)];
        }
        return JSON.stringify(whole);
      }),
      () => JSON.stringify(junk[dice(junk.length)]),
    ];
    const keys = Object.keys(good).filter((key) => key.startsWith('lamella/2/'));
    // The state of an older page, made of that of this one.
    const value = (key) => JSON.parse(good[key]).value;
    const ids = keys.filter((key) => key.endsWith('/recipe')).map((key) => key.slice(0, -7));
    const older = JSON.stringify({ ...value('lamella/2/settings'), mode: 'bench', shelf: ids.map((id) => ({ id: id.slice(10), recipe: value(`${id}/recipe`), bench: value(`${id}/bench`), papers: value(`${id}/papers`) })) });
    for (let round = 0; round < (device === DESK ? 90 : 30); round += 1) {
      const state = dice(4) === 0 ? { 'lamella/1': older } : { ...good };
      const hit = [];
      for (let count = dice(2); count >= 0; count -= 1) {
        const key = Object.keys(state)[dice(Object.keys(state).length)];
        state[key] = mutations[dice(mutations.length)](state[key]);
        hit.push(key);
      }
      const told = `round ${round}, ${hit.map((key) => `${key}: ${state[key]}`).join('\n')}`;
      try {
        await loadWith(tab, state);
        for (const name of ['Recipes', 'Plan', 'At the bench', 'Afterwards']) {
          await mode(tab, name);
          assert.ok((await tab.locator('main').innerText()).length > 40, name);
          assert.equal(await tab.locator('.broken').count(), 0, `${name}: ${await tab.locator('main').innerText()}`);
        }
        for (const name of (await tab.locator('.papers').count()) ? ['Label', 'Cost', 'Cure', 'At the basin', 'Batch record', 'Heat', 'What went wrong'] : []) {
          await paper(tab, name);
          assert.ok((await tab.locator('main').innerText()).length > 40, name);
          assert.equal(await tab.locator('.broken').count(), 0, `${name}: ${await tab.locator('main').innerText()}`);
        }
        // What was damaged is read in whole, or kept as it was.
        const now = await all(tab);
        const kept = Object.entries(now).filter(([key]) => key.startsWith('lamella/aside/')).map(([, text]) => text);
        for (const key of hit.filter((one) => !one.endsWith('/view'))) {
          const whole = key === 'lamella/1' ? everyRecipe(now, state[key]) : isIn(valueOf(state[key]), valueOf(now[key]));
          assert.ok(kept.includes(state[key]) || whole, `${key} is lost`);
        }
      } catch (error) {
        throw new Error(`${error.stack}\n${told}`);
      }
    }
    await close(one);
  },

  /** What cannot be shown at all says so, hands everything out, and can begin afresh. */
  async 'what cannot be shown says so'(device, label) {
    const one = await open(device);
    const { tab } = one;
    await canLoad(tab);
    const good = await much(tab);
    tab.on('dialog', (dialog) => void dialog.accept());
    await tab.addInitScript(() => {
      if (sessionStorage.getItem('mended')) return;
      globalThis.matchMedia = () => {
        throw new Error('a fault of this trial');
      };
    });
    await loadWith(tab, good);
    await tab.getByRole('heading', { name: 'This cannot be shown' }).waitFor();
    await sound(tab, 'boundary');
    await shot(tab, `${label}-boundary`, false);
    const file = await downloaded(tab, tab.locator('.broken').getByRole('button', { name: 'Download everything' }));
    // The other parts of the page go on.
    await mode(tab, 'Recipes');
    assert.equal((await shelf(tab)).length, 2);
    await mode(tab, 'Plan');
    await tab.evaluate(() => sessionStorage.setItem('mended', 'yes'));
    await tab.getByRole('button', { name: 'Begin afresh' }).click();
    await mode(tab, 'Recipes');
    assert.equal((await shelf(tab)).length, 1);
    await tab.locator('.asides', { hasText: 'Everything' }).waitFor();
    assert.deepEqual(Object.keys(JSON.parse((await asides(tab))[0])).filter((key) => !key.endsWith('view')), Object.keys(good).filter((key) => !key.endsWith('view')).sort());
    await tab.reload();
    await mode(tab, 'Plan');
    await tab.waitForSelector('.bar');
    // What was downloaded comes back with its bench and its papers.
    await mode(tab, 'Recipes');
    await tab.locator('input[type=file]').first().setInputFiles({ name: 'all.json', mimeType: 'application/json', buffer: Buffer.from(file) });
    await tab.locator('.notice', { hasText: 'Opened all.json: 2 recipes' }).waitFor();
    await tab.locator('.known', { hasText: 'on the bench' }).click();
    await mode(tab, 'Afterwards');
    await paper(tab, 'Batch record');
    assert.equal(await tab.locator('.record').getByLabel('Batch', { exact: true }).inputValue(), '2026-11');
    await close(one);
  },

  /** Back and Forward walk what was looked at; loading again stays there. */
  async 'back and forward'(device) {
    const one = await open(device);
    const { tab } = one;
    const at = () => tab.locator('.top nav .here').innerText();
    const title = (name) => tab.getByRole('heading', { name }).first().waitFor();
    await thing(tab, 'Fats');
    await title('Fats');
    if (device !== DESK) await tab.goBack();
    await thing(tab, 'Lye');
    await title('Lye');
    await mode(tab, 'At the bench');
    await mode(tab, 'Afterwards');
    await paper(tab, 'Label');
    await mode(tab, 'Recipes');
    await tab.getByRole('button', { name: 'Begin a new one' }).click();
    await tab.goBack();
    assert.equal(await at(), 'Recipes');
    await tab.goBack();
    assert.equal(await at(), 'Afterwards');
    assert.equal(await tab.locator('.papers .here').innerText(), 'Label');
    await tab.reload();
    await tab.waitForSelector('.papers');
    assert.equal(await tab.locator('.papers .here').innerText(), 'Label');
    await tab.goBack();
    assert.equal(await tab.locator('.papers .here').innerText(), 'Sheet');
    await tab.goBack();
    assert.equal(await at(), 'At the bench');
    await tab.goBack();
    await title('Lye');
    // A panel is there after loading again too, and what lay over it is not over another.
    await tab.reload();
    await title('Lye');
    await tab.getByRole('button', { name: 'Units' }).click();
    await tab.getByRole('dialog').waitFor();
    await tab.goBack();
    await tab.getByRole('dialog').waitFor({ state: 'detached' });
    await tab.goForward();
    await title('Lye');
    await tab.goForward();
    assert.equal(await at(), 'At the bench');
    assert.ok(tab.url().startsWith('file:'));
    await close(one);
  },

  /** A storage that takes nothing more loses nothing: it is said, handed out, and tried again. */
  async 'storage that is full'(device, label) {
    const one = await open(device);
    const { tab } = one;
    await thing(tab, 'Fats');
    await superfat(tab).fill('6');
    await stored(tab);
    await tab.evaluate(() => {
      for (let size = 1 << 22; size > 0; size >>= 1) {
        try {
          for (let count = 0; ; count += 1) localStorage.setItem(`fill ${size} ${count}`, 'x'.repeat(size));
        } catch {
          // Now it is so full.
        }
      }
    });
    await mode(tab, 'Recipes');
    await tab.getByRole('button', { name: 'Begin a new one' }).click();
    const message = tab.locator('.message', { hasText: 'Your work is not being stored' });
    await message.waitFor();
    assert.match(await message.innerText(), /full/);
    await sound(tab, 'storage full');
    await shot(tab, `${label}-full`, false);
    const file = JSON.parse(await downloaded(tab, message.getByRole('button', { name: 'Download everything' })));
    assert.deepEqual(file.shelf.map((entry) => entry.recipe.name), ['New bar', 'Tidal strata']);
    assert.equal(file.shelf[1].recipe.superfat, '6 %');
    // It is asked before the tab is left with it.
    const asked = new Promise((resolve) => tab.once('dialog', (dialog) => dialog.dismiss().then(() => resolve(dialog.type()))));
    await tab.locator('h1').first().click();
    await tab.evaluate(() => setTimeout(() => location.reload(), 0));
    assert.equal(await asked, 'beforeunload');
    await tab.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith('fill ')).forEach((key) => localStorage.removeItem(key)));
    await message.getByRole('button', { name: 'Try again' }).click();
    await message.waitFor({ state: 'detached' });
    await tab.reload();
    await tab.waitForSelector('.top');
    await mode(tab, 'Recipes');
    assert.equal((await shelf(tab)).length, 2);
    await close(one);
  },

  async 'storage that is refused'(device) {
    const one = await open(device);
    const { tab } = one;
    for (const refuse of [
      () => Object.defineProperty(globalThis, 'localStorage', { get: () => { throw new DOMException('no', 'SecurityError'); } }),
      () => (Storage.prototype.setItem = () => { throw new DOMException('no', 'SecurityError'); }),
    ]) {
      const other = await one.context.newPage();
      await other.addInitScript(refuse);
      await other.goto(address);
      await other.waitForSelector('.bar');
      await thing(other, 'Fats');
      await superfat(other).fill('6');
      const message = other.locator('.message', { hasText: 'Your work is not being stored' });
      await message.waitFor();
      assert.match(await message.innerText(), /lets this page store nothing/);
      assert.equal(await superfat(other).inputValue(), '6');
      const file = JSON.parse(await downloaded(other, message.getByRole('button', { name: 'Download everything' })));
      assert.equal(file.shelf[0].recipe.superfat, '6 %');
    }
    await close(one);
  },
};

/** What is stored in a text; nothing that is stored anywhere if it is none. */
function valueOf(text) {
  try {
    return JSON.parse(text).value;
  } catch {
    return NaN;
  }
}

/** Whether all that is in a thing is in another as well. */
function isIn(thing, other) {
  if (thing === null || thing === undefined) return true;
  if (typeof thing !== 'object') return Object.is(thing, other);
  if (typeof other !== 'object' || other === null || Array.isArray(thing) !== Array.isArray(other)) return false;
  if (Array.isArray(thing) && thing.length !== other.length) return false;
  return Object.keys(thing).every((key) => isIn(thing[key], other[key]));
}

/** Whether each recipe of an older state is stored, with its bench and its papers. */
function everyRecipe(now, old) {
  try {
    const ids = Object.keys(now).filter((key) => key.endsWith('/recipe')).map((key) => key.slice(0, -7));
    const { shelf, units, usual } = JSON.parse(old);
    const settings = valueOf(now['lamella/2/settings']);
    return (
      isIn({ units, usual }, settings) &&
      shelf.every((one) => ids.some((id) => ['recipe', 'bench', 'papers'].every((part) => isIn(one[part], valueOf(now[`${id}/${part}`])))))
    );
  } catch {
    return false;
  }
}
