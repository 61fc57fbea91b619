// The page beside the command line: changes made there, a program that dies, a browser that is not known.
import assert from 'node:assert/strict';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { api, go, launch, settled, visit } from './browser.mjs';
import { openProgram, wildling, workplace } from './program.mjs';

let browser;
before(async () => (browser = await launch()));
after(async () => browser?.close());

async function withProgram(work) {
  const place = workplace();
  const held = { program: await openProgram(place) };
  try {
    const visitor = await visit(browser, held.program);
    await settled(visitor.page);
    await work(visitor, place, held);
    await visitor.done();
  } finally {
    await held.program.end();
    place.remove();
  }
}

test('a change made by the command line appears by itself', () =>
  withProgram(async ({ page }, place) => {
    await wildling(place, 'set', place.file, 'tending.wage_per_day', '170000', '--source', 'village committee (invented)');
    await page.waitForSelector('.notice.stale', { timeout: 3000 });
  }));

test('a program that is killed is told, and the page goes on when it is started again', () =>
  withProgram(async ({ page, allow }, place, held) => {
    allow((text) => /ERR_CONNECTION_REFUSED|ERR_CONNECTION_RESET|ERR_EMPTY_RESPONSE|ERR_NETWORK/.test(text));
    await held.program.end('SIGKILL');
    await page.waitForSelector('text=The program on this computer has stopped.', { timeout: 6000 });
    assert.ok(await page.locator('main .answer').isVisible());
    held.program = await openProgram(place, '--port', held.program.port);
    await page.waitForSelector('text=The program on this computer has stopped.', { state: 'detached', timeout: 10000 });
    assert.equal((await api(page, 'api/state')).plan.number, 1);
  }));

test('a browser that the program does not know is told what to open', () =>
  withProgram(async ({ page, allow }) => {
    allow((text) => /403/.test(text));
    await page.context().clearCookies();
    await page.waitForSelector('text=The program does not know this browser.', { timeout: 6000 });
  }));

test('a file with a faulty line is taken in, and the line is shown', () =>
  withProgram(async ({ page }, place) => {
    const file = join(place.folder, 'rain.csv');
    writeFileSync(file, 'date,rain_mm\n2025-01-01,12.5\n2025-01-02,-3\n2025-01-03,0\n');
    await go(page, '#take');
    await page.check('[name=what][value=weather]');
    await page.fill('[name=station]', 'Office (invented)');
    await page.setInputFiles('[name=file]', file);
    await page.getByRole('button', { name: 'Take it in' }).click();
    await page.waitForSelector('.findings');
    assert.match(await page.locator('.findings').textContent(), /rain\.csv:3/);
  }));

test('a file that is no use is refused with a sentence, and nothing is kept', () =>
  withProgram(async ({ page, allow }, place) => {
    allow((text) => /422|400/.test(text));
    const file = join(place.folder, 'photo.geojson');
    writeFileSync(file, 'this is not a map');
    await go(page, '#take');
    await page.setInputFiles('[name=file]', file);
    await page.getByRole('button', { name: 'Take it in' }).click();
    await page.waitForSelector('.fault');
    assert.ok((await page.locator('.fault').first().textContent()).length > 20);
    assert.equal((await api(page, 'api/state')).plan.stale, false);
  }));
