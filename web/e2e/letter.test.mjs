// The first view, as a person meets it. Also run where there is no network at all (nowhere.test.mjs).
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { launch, settled, visit } from './browser.mjs';
import { openProgram, wildling, workplace } from './program.mjs';

let browser, place, program;
before(async () => {
  place = workplace();
  [browser, program] = await Promise.all([launch(), openProgram(place)]);
});
after(async () => {
  await browser?.close();
  await program?.end();
  place?.remove();
});

// The command line folds at 100 columns; sentences are compared without line ends.
const flat = (text) => text.replace(/\s+/g, ' ').trim();

test('the letter says what the command line says, with what may not be planted right after the answer', async (t) => {
  const told = flat(await wildling(place, 'show', place.file));
  const visitor = await visit(browser, program);
  await settled(visitor.page);
  const heading = await visitor.page.textContent('main h1');
  const answer = flat(await visitor.page.textContent('main .answer'));
  assert.ok(told.startsWith(`${heading} ${answer}`), `${heading} ${answer}`);
  assert.equal(await visitor.page.textContent('main h2 >> nth=0'), 'On hold: draft, not for crews');
  for (const sentence of await visitor.page.locator('main .letter section p:not(.no-print)').allTextContents()) {
    assert.ok(told.includes(flat(sentence)), sentence);
  }
  const paint = await visitor.page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime);
  t.diagnostic(`first useful paint after ${Math.round(paint)} ms`);
  await visitor.done();
});

test('the letter has a picture of the planting weeks with a sentence below, and its tables', async () => {
  const visitor = await visit(browser, program);
  await visitor.page.waitForSelector('#chart-window svg[role=img]');
  assert.match(await visitor.page.textContent('#chart-window figcaption'), /Rain log of .*days/);
  for (const table of ['blocks', 'species', 'seed', 'weeks', 'money']) assert.ok(await visitor.page.locator(`#table-${table} tbody tr`).count(), table);
  await visitor.done();
});

test('findings name the file and what to do', async () => {
  const visitor = await visit(browser, program);
  await settled(visitor.page);
  const text = await visitor.page.locator('.intakes').textContent();
  assert.match(text, /invented_weather\.csv/);
  assert.match(text, /Write 0 for days without rain/);
  await visitor.done();
});

test('a table sorts by any column and keeps its head in view', async () => {
  const visitor = await visit(browser, program);
  await visitor.page.waitForSelector('#table-blocks tbody tr');
  const head = visitor.page.locator('#table-blocks thead th', { hasText: 'Area' });
  await head.getByRole('button').click();
  await head.getByRole('button').click();
  assert.equal(await head.getAttribute('aria-sort'), 'descending');
  const areas = (await visitor.page.locator('#table-blocks tbody tr td:nth-child(3)').allTextContents()).map(Number);
  assert.deepEqual(areas, [...areas].sort((a, b) => b - a));
  await visitor.page.locator('#table-blocks .scroll').evaluate((box) => (box.scrollTop = 400));
  const [box, row] = await Promise.all([visitor.page.locator('#table-blocks .scroll').boundingBox(), head.boundingBox()]);
  assert.ok(Math.abs(box.y - row.y) < 4, `${box.y} ${row.y}`);
  await visitor.done();
});

test('the line below a number tells its origin before it is opened', async () => {
  const visitor = await visit(browser, program);
  await visitor.page.waitForSelector('#table-blocks button.number.mark-measured');
  await visitor.page.waitForSelector('main .answer button.number.mark-open');
  await visitor.done();
});

test('the language changes at once, without a reload', async () => {
  const visitor = await visit(browser, program);
  await settled(visitor.page);
  await visitor.page.evaluate(() => (window.stillTheSame = true));
  await visitor.page.getByRole('button', { name: 'Bahasa Indonesia' }).click();
  await visitor.page.waitForFunction(() => document.documentElement.lang === 'id');
  const told = flat(await wildling(place, 'show', place.file, '--lang', 'id'));
  const answer = flat(await visitor.page.textContent('main .answer'));
  assert.ok(told.includes(answer), answer);
  assert.equal(await visitor.page.textContent('nav [aria-current]'), 'Surat');
  assert.equal(await visitor.page.evaluate(() => window.stillTheSame), true);
  await visitor.done();
});

test('printed, the letter is an A4 sheet without controls, with plan number and what is invented', async () => {
  const visitor = await visit(browser, program);
  await visitor.page.waitForSelector('#chart-window svg[role=img]');
  const file = join(place.folder, 'letter.pdf');
  writeFileSync(file, await visitor.page.pdf({ preferCSSPageSize: true, printBackground: false }));
  const text = flat(execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }));
  const size = execFileSync('pdfinfo', [file], { encoding: 'utf8' });
  assert.match(size, /Page size:\s+59[45][.\d]* x 84[12][.\d]* pts \(A4\)/);
  assert.ok(text.includes(flat(await visitor.page.textContent('main .answer')).slice(0, 40)), text.slice(0, 300));
  assert.match(text, /Plan 1, made for 2 February 2026\./);
  assert.match(text, /All figures are invented/);
  assert.match(text, /Waves assumed/);
  for (const control of ['Write in the book', 'Bahasa Indonesia', 'Answer the four questions']) assert.ok(!text.includes(control), control);
  await visitor.done();
});
