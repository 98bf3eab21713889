// `node page.mjs [folder for pictures]`: every trial of the page in Chromium, on a phone and on a desk. CHROMIUM says where
// the browser is; TRIAL=name runs only the trials whose name has that; SLACK=3 gives clocks room on a busy machine.
import { browser, DESK, PHONE } from './browser.mjs';
import bench from './trials/bench.mjs';
import certificates from './trials/certificates.mjs';
import files from './trials/files.mjs';
import heat from './trials/heat.mjs';
import hold from './trials/hold.mjs';
import kept from './trials/kept.mjs';
import plan from './trials/plan.mjs';
import reading from './trials/reading.mjs';
import record from './trials/record.mjs';
import speed from './trials/speed.mjs';

// Clocks first, while the browser has done little else.
const trials = { ...speed, ...plan, ...certificates, ...bench, ...hold, ...heat, ...record, ...files, ...kept, ...reading };

let failed = 0;
for (const [label, device] of [['phone', PHONE], ['desk', DESK]]) {
  for (const [name, trial] of Object.entries(trials)) {
    if (process.env.TRIAL && !name.includes(process.env.TRIAL)) continue;
    try {
      await trial(device, label);
      console.log(`ok    ${label}: ${name}`);
    } catch (error) {
      failed += 1;
      console.log(`FAILED ${label}: ${name}\n${error.stack ?? error}`);
    }
  }
}
await browser.close();

process.exit(failed === 0 ? 0 : 1);
