// The page in Chromium, by double-click and served, and what trials do in it.
import assert from 'node:assert/strict';
import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

export const here = dirname(fileURLToPath(import.meta.url));
export const page = join(here, '../dist/index.html');
export const shots = process.argv[2] ?? join(here, '../shots');
mkdirSync(shots, { recursive: true });
const executablePath =
  process.env.CHROMIUM ?? ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(existsSync);
const axe = readFileSync(join(here, '../node_modules/axe-core/axe.min.js'), 'utf8');

export const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 };
export const SMALL = { viewport: { width: 320, height: 640 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 };
export const DESK = { viewport: { width: 1280, height: 900 } };

export const browser = await chromium.launch({
  executablePath,
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync', '--disable-features=BackForwardCache'],
});

/** A fresh browser with the page by double-click; whatever goes wrong in it fails the trial. */
export async function open(device, { address = pathToFileURL(page).href, ...more } = {}) {
  const context = await browser.newContext({ ...device, locale: 'en-GB', acceptDownloads: true, ...more });
  const tab = await context.newPage();
  const wrong = [];
  tab.on('pageerror', (error) => wrong.push(error.message));
  tab.on('console', (message) => message.type() === 'error' && wrong.push(message.text()));
  const asked = [];
  tab.on('request', (request) => asked.push(request.url()));
  await tab.goto(address);
  await tab.waitForSelector('.bar');
  return { context, tab, wrong, asked };
}

export const close = async ({ context, wrong }) => {
  await context.close();
  assert.deepEqual(wrong, []);
};

export const mode = (tab, name) => tab.getByRole('navigation', { name: 'Parts of the job' }).getByRole('button', { name }).click();
export const paper = (tab, name) => tab.getByRole('navigation', { name: 'Papers' }).getByRole('button', { name, exact: true }).click();
export const thing = (tab, name) => tab.locator('.shelf button', { hasText: name }).click();
export const shot = (tab, name, fullPage = true) => tab.screenshot({ path: join(shots, `${name}.png`), fullPage });

/** Nothing serious for those who cannot see or point, and nothing sticks out of the screen. */
export async function sound(tab, name) {
  await tab.evaluate(axe);
  const found = await tab.evaluate(() => globalThis.axe.run(document, { resultTypes: ['violations'] }));
  const serious = found.violations.filter((one) => one.impact === 'serious' || one.impact === 'critical');
  const told = serious.map((one) => `${one.id}: ${one.nodes.map((node) => node.target.join(' ')).slice(0, 4).join('; ')}`);
  assert.deepEqual(told, [], name);
  const wide = await tab.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.ok(wide <= 1, `${name}: ${wide} px stick out`);
}

/** Drops a file on the page. */
export async function dropFile(tab, name, text) {
  const data = await tab.evaluateHandle(
    ([name, text]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([text], name, { type: 'application/json' }));
      return transfer;
    },
    [name, text],
  );
  await tab.dispatchEvent('body', 'dragover', { dataTransfer: data });
  await tab.dispatchEvent('body', 'drop', { dataTransfer: data });
}

/** The card that lies on the bench. */
export const card = (tab) => tab.locator('.card h2').innerText();
export const done = (tab) => tab.locator('.steps button.big').last().click();
export async function upTo(tab, title) {
  for (let count = 0; count < 80; count += 1) {
    if (title.test(await card(tab))) return;
    await done(tab);
  }
  assert.fail(`no ${title}`);
}
