// Every number opens, down to where it comes from; what is assumed can be changed, and the plan made again.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { go, launch, settled, visit } from './browser.mjs';
import { openProgram, workplace } from './program.mjs';

let browser;
before(async () => (browser = await launch()));
after(async () => browser?.close());

/** A program of its own for each test, since these change the file. */
async function withProgram(work) {
  const place = workplace();
  const program = await openProgram(place);
  try {
    const visitor = await visit(browser, program);
    await settled(visitor.page);
    await work(visitor, place, program);
    await visitor.done();
  } finally {
    await program.end();
    place.remove();
  }
}

const opened = (page) => page.waitForSelector('.workings .value');

test("a number of the letter's first line opens down to a leaf, and back", () =>
  withProgram(async ({ page }) => {
    const first = page.locator('main .answer button.number').first();
    const shown = await first.textContent();
    await first.click();
    await opened(page);
    assert.equal((await page.textContent('.workings .value')).split(' ')[0], shown);
    let depth = 1;
    while ((await page.locator('.workings .inputs button.number').count()) > 0 && depth < 30) {
      const label = (await page.locator('.workings .inputs li span').first().textContent()).trim();
      await page.locator('.workings .inputs button.number').first().click();
      await page.waitForFunction((wanted) => document.querySelector('#margin-heading')?.textContent.trim() === wanted, label);
      await opened(page);
      depth += 1;
    }
    assert.ok(depth > 1 && depth < 30, String(depth));
    assert.match(await page.locator('.workings .value span').getAttribute('class'), /mark-(measured|told|documented|assumed|open)/);
    assert.equal(await page.locator('.trail li').count(), depth);
    await page.locator('.trail button').first().click();
    await page.waitForFunction(() => document.querySelectorAll('.trail li').length === 0);
    await page.keyboard.press('Escape');
    assert.equal(await page.locator('.workings').count(), 0);
    assert.equal(await page.evaluate(() => document.activeElement?.getAttribute('data-opens')), await first.getAttribute('data-opens'));
  }));

test('a computed number shows its formula, a leaf its source or why', () =>
  withProgram(async ({ page }) => {
    await page.locator('main .answer button.number').first().click();
    await opened(page);
    assert.ok((await page.locator('.workings .formula').textContent()).length > 3);
    await go(page, '#numbers');
    await page.waitForSelector('#table-numbers button.number');
    await page.locator('#table-numbers button.number').first().click();
    await opened(page);
    assert.ok((await page.locator('.workings .facts dd').count()) >= 2);
    assert.match(await page.locator('.workings .value span').getAttribute('class'), /mark-assumed/);
  }));

test('an assumed number changed with a reason makes the plan stale; made again, it is a new plan with another sum', () =>
  withProgram(async ({ page }) => {
    const money = page.locator('main button[data-opens="money/total"]').first();
    const before = await money.textContent();
    await go(page, '#numbers');
    await page.locator('#table-numbers button[data-opens="parameter/tending.wage_per_day"]').click();
    await opened(page);
    await page.locator('.change summary').click();
    await page.fill('.change [name=value]', '180000');
    await page.click('.change [type=submit]');
    assert.match(await page.evaluate(() => document.querySelector('.change [name=reason]').validationMessage), /./);
    await page.fill('.change [name=reason]', 'village committee, 30 January 2026 (invented)');
    await page.click('.change [type=submit]');
    await page.waitForSelector('.notice.stale');
    await page.waitForSelector('text=Kept. A plan that rests on it is stale');
    await page.getByRole('button', { name: 'Make the plan again' }).click();
    await page.waitForSelector('.notice.stale', { state: 'detached', timeout: 60000 });
    await go(page, '#letter');
    await page.waitForFunction(() => /plan 2/.test(document.querySelector('main h1')?.textContent ?? ''));
    assert.notEqual(await money.textContent(), before);
  }));

test('work that is stopped leaves the plan as it was', () =>
  withProgram(async ({ page }) => {
    await go(page, '#gates');
    await page.selectOption('[name=where]', 'Twin Hills');
    await page.check('[name=consent][value=yes]');
    await page.fill('[name=who]', 'village land committee (invented)');
    await page.getByRole('button', { name: 'Keep the answers' }).click();
    await page.waitForSelector('.notice.stale');
    await page.getByRole('button', { name: 'Make the plan again' }).click();
    await page.locator('.job').getByRole('button', { name: 'Stop it' }).click();
    await page.waitForSelector('text=The work was stopped. Nothing was changed.');
    assert.ok(await page.locator('.notice.stale').isVisible());
    await go(page, '#letter');
    assert.match(await page.textContent('main h1'), /plan 1/);
  }));
