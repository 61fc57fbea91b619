// Takes the pictures of docs/page.md from the real program with the demo. usage: node pictures.mjs FOLDER
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { launch, settled, visit } from './browser.mjs';
import { openProgram, wildling, workplace } from './program.mjs';

const folder = process.argv[2];
mkdirSync(folder, { recursive: true });
const place = workplace();
const [browser, program] = await Promise.all([launch(), openProgram(place)]);

// The day after the last reading of the log, with three blocks looked at: notes leave the plan as it is.
const morning = workplace();
const looks = ['soil', 'strip-cleared', 'pits-dug', 'stock-ready', 'pit-drains', 'river-not-rising', 'crew-and-way-in'];
const seen = looks.flatMap((look) => [`--${look}`, look === 'soil' ? 'moist' : 'yes']);
await wildling(morning, 'note', 'look', morning.file, '--block', 'B1', '--block', 'B2', '--block', 'B3', '--day', '2025-12-31', ...seen, '--today', '2026-01-01');
const early = await openProgram(morning, '--today', '2026-01-01');

async function take(name, options, prepare = async () => undefined, from = program) {
  const visitor = await visit(browser, from, options);
  await settled(visitor.page);
  await prepare(visitor.page);
  await visitor.page.waitForTimeout(400);
  await visitor.page.screenshot({ path: join(folder, `${name}.png`), animations: 'disabled' });
  await visitor.done();
}

const openNumber = (key) => async (page) => {
  await page.locator(`main button[data-opens="${key}"]`).first().click();
  await page.waitForSelector('.workings .value');
};
const drawn = async (page) => {
  await page.waitForSelector('.maplibregl-canvas');
  await page.waitForTimeout(2500);
};

const WIDTHS = [['phone', 390, 844], ['laptop', 1366, 768], ['desk', 1920, 1080]];
try {
  for (const language of ['en', 'id']) {
    for (const [size, width, height] of WIDTHS) await take(`letter-${size}-${language}`, { width, height, language });
    for (const [size, width, height] of WIDTHS) await take(`today-${size}-${language}`, { width, height, language, hash: '#ask/today' }, undefined, early);
    await take(`write-laptop-${language}`, { language, hash: '#write' });
    await take(`workings-laptop-${language}`, { language }, openNumber('letter/area_open'));
    await take(`workings-phone-${language}`, { language, width: 390, height: 844 }, openNumber('programme/planted'));
    await take(`tables-laptop-${language}`, { language }, (page) => page.locator('#tables-heading').scrollIntoViewIfNeeded().then(() => page.evaluate(() => document.querySelector('#tables-heading').scrollIntoView())));
    await take(`numbers-laptop-${language}`, { language, hash: '#numbers' });
    await take(`map-laptop-${language}`, { language, hash: '#map' }, drawn);
    await take(`questions-laptop-${language}`, { language, hash: '#ask' });
  }
} finally {
  await browser.close();
  await Promise.all([program.end(), early.end()]);
  place.remove();
  morning.remove();
}
