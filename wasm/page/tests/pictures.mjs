// Every picture that the library draws as PNG, light and dark, to look at: cargo test -p lamella-tests --test pictures
// leaves the drawings in target/pictures, and so does this.
import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { browser } from './browser.mjs';

const folder = join(dirname(fileURLToPath(import.meta.url)), '../../../target/pictures');
const COLOURS = { light: ['#fff', '#222'], dark: ['#16181c', '#e6e6e6'] };
mkdirSync(folder, { recursive: true });
for (const file of readdirSync(folder).filter((name) => name.endsWith('.svg'))) {
  for (const [name, [ground, ink]] of Object.entries(COLOURS)) {
    const tab = await browser.newPage({ viewport: { width: 760, height: 620 } });
    const svg = readFileSync(join(folder, file), 'utf8');
    await tab.setContent(`<body style="margin:16px;background:${ground};color:${ink}">${svg}</body>`);
    await tab.screenshot({ path: join(folder, file.replace('.svg', `-${name}.png`)), fullPage: true });
    await tab.close();
  }
}
await browser.close();
