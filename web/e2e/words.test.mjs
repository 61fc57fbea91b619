// Everything the page can show has words: no key in brackets, no raw braces, no field or choice by its program name.
// On the full programme before and after its field year, and on the one of which little is known.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { api, everyView, go, launch, visit } from './browser.mjs';
import { DEMO, openProgram, POOR, TODAY, workplace } from './program.mjs';

const KEY = /\[[a-z_]+(\.[a-z_0-9]+)+\]/g;
const SHEETS = ['summary', 'crew', 'rain', 'map', 'tomorrow', 'walk', 'pay', 'fire', 'waiting'];

/** A question that takes a while is asked only when somebody says so. */
async function askSlow(page) {
  const ask = page.locator('main details.asking[open] button[type=submit]');
  if ((await ask.count()) === 0) return;
  await ask.click();
  await page.waitForFunction(() => document.querySelector('main .answer, main .fault') && !/Working …|Sedang dihitung …/.test(document.querySelector('main').textContent), null, { timeout: 120000 });
}

/** What a view shows without words of its own. */
async function bare(page, view) {
  const text = await page.evaluate(() => document.querySelector('main').innerText);
  const found = [...text.matchAll(KEY)].map((match) => match[0]);
  for (const match of text.matchAll(/[^\n]*[{}][^\n]*/g)) found.push(match[0]);
  const [, kind, name] = /^#(ask|write)\/(.+)$/.exec(view) ?? [];
  if (kind) {
    if ((await page.textContent('main h1')) === name) found.push('its heading');
    const kinds = await api(page, kind === 'ask' ? 'api/questions' : 'api/notes');
    const { fields } = kinds.find((one) => one.name === name);
    const shown = await page.evaluate(() => [...document.querySelectorAll('main .field')].map((field) => ({
      label: field.querySelector('legend').firstChild.textContent.trim(),
      must: field.querySelector('.must') !== null && field.querySelector('[aria-required="true"]') !== null,
      choices: [...field.querySelectorAll('select option')].map((option) => ({ value: option.value, text: option.textContent })),
    })));
    fields.forEach((field, i) => {
      if (shown[i].label === '' || shown[i].label === field.name) found.push(`field ${field.name}`);
      if (shown[i].must !== field.required) found.push(`${field.name} is not marked as needed`);
      const known = new Set(shown[i].choices.map(({ value }) => value));
      for (const choice of field.choices) if (!known.has(choice)) found.push(`${field.name}: no ${choice}`);
      for (const { value, text } of shown[i].choices) if (text === '' || text.includes('_') || (/[_-]/.test(value) && text === value)) found.push(`${field.name}: ${value} is "${text}"`);
    });
  }
  return found.map((what) => `${view}: ${what}`);
}

for (const [name, demo, today] of [['before', DEMO, TODAY], ['in its field year', DEMO, '2027-02-02'], ['with little known', POOR, TODAY]]) {
  for (const language of ['en', 'id']) {
    test(`every view and sheet has words for all it shows (${name}, ${language})`, async () => {
      const place = workplace(demo);
      const [browser, program] = await Promise.all([launch(), openProgram(place, '--today', today)]);
      try {
        const visitor = await visit(browser, program, { language });
        const missing = [];
        for (const view of await everyView(visitor.page)) {
          await go(visitor.page, view);
          await askSlow(visitor.page);
          missing.push(...(await bare(visitor.page, view)));
        }
        assert.deepEqual(missing, []);
        assert.deepEqual(visitor.faults, []);
        await sheets(visitor, language);
        await visitor.done();
      } finally {
        await browser.close();
        await program.end();
        place.remove();
      }
    });
  }
}

/** Each sheet opens as paper, or says in a sentence at its place why it cannot be made. */
async function sheets({ page, allow }, language) {
  allow((text) => /422|404/.test(text));
  await go(page, '#sheets');
  for (const kind of SHEETS) {
    const line = page.locator(`main .chapters li:has(a[href*="kind=${kind}&"])`);
    const answered = page.waitForResponse((response) => response.url().includes(`kind=${kind}&lang=${language}`));
    const opened = page.context().waitForEvent('page', { timeout: 15000 }).catch(() => null);
    await line.locator('a').click();
    const response = await answered;
    if (response.ok()) {
      assert.match(response.headers()['content-type'], /^(application\/pdf|image\/png)/);
      await (await opened)?.close();
    } else {
      await line.locator('.fault').waitFor();
      const said = await line.locator('.fault').textContent();
      assert.ok(/\p{L}+ \p{L}+/u.test(said) && !/[{}]/.test(said) && !said.match(KEY), said);
    }
  }
}
