// Every view in both languages: usable with a screen reader, fits its window, has words for everything.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, test } from 'node:test';
import { everyView, go, launch, settled, visit } from './browser.mjs';
import { openProgram, workplace } from './program.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
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

for (const language of ['en', 'id']) {
  test(`axe finds nothing in any view (${language})`, async () => {
    const visitor = await visit(browser, program, { language });
    const found = [];
    for (const view of await everyView(visitor.page)) {
      await go(visitor.page, view);
      await visitor.page.evaluate(axe);
      const result = await visitor.page.evaluate(() => window.axe.run(document, { resultTypes: ['violations'] }));
      for (const fault of result.violations) found.push(`${view} ${fault.id}: ${fault.nodes.slice(0, 3).map((node) => node.html.slice(0, 140)).join(' | ')}`);
    }
    assert.deepEqual(found, []);
    await visitor.done();
  });
}

for (const [width, height] of [[390, 844], [1366, 768], [1920, 1080]]) {
  test(`no view is wider than a window of ${width} pixels`, async () => {
    for (const language of ['en', 'id']) {
      const visitor = await visit(browser, program, { width, height, language });
      const wide = [];
      for (const view of await everyView(visitor.page)) {
        await go(visitor.page, view);
        const over = await visitor.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        if (over > 0) wide.push(`${view}: ${over} pixels`);
      }
      assert.deepEqual(wide, []);
      await visitor.done();
    }
  });
}

test('the keyboard alone reaches a number, opens it and comes back', async () => {
  const visitor = await visit(browser, program);
  const { page } = visitor;
  await settled(page);
  const focus = () => page.evaluate(() => ({ id: document.activeElement?.id, cls: document.activeElement?.className, text: document.activeElement?.textContent?.trim() }));
  await page.keyboard.press('Tab');
  assert.equal((await focus()).text, 'Go to the text');
  await page.keyboard.press('Enter');
  assert.equal((await focus()).id, 'main');
  await page.keyboard.press('Tab');
  assert.match((await focus()).cls, /\bnumber\b/);
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
  assert.equal(outline, 'solid');
  await page.keyboard.press('Enter');
  await page.waitForSelector('.workings .value');
  assert.equal((await focus()).id, 'margin-heading');
  await page.keyboard.press('Escape');
  assert.match((await focus()).cls, /\bnumber\b/);
  await visitor.done();
});

test('on a phone an opened number is shown below the text and comes into view', async () => {
  const visitor = await visit(browser, program, { width: 390, height: 844 });
  const { page } = visitor;
  await settled(page);
  await page.locator('main .answer button.number').first().click();
  await page.waitForSelector('.workings .value');
  await page.waitForFunction(() => {
    const box = document.querySelector('#margin-heading').getBoundingClientRect();
    return box.top >= 0 && box.bottom <= innerHeight;
  });
  const [text, margin] = await Promise.all([page.locator('main').boundingBox(), page.locator('.margin').boundingBox()]);
  assert.ok(margin.y >= text.y + text.height - 1);
  await visitor.done();
});
