// One browser; pages that remember every console error and every request that left the program's own address.
import assert from 'node:assert/strict';
import { chromium } from 'playwright-core';

const EXECUTABLE = process.env.WILDLING_CHROMIUM ?? '/usr/bin/chromium';
const ARGS = ['--no-sandbox', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--no-first-run', '--disable-dev-shm-usage'];

export const launch = () => chromium.launch({ executablePath: EXECUTABLE, args: ARGS });

/** A page on the program's address. `faults` lists what must not happen; `allow` takes what a test provokes. */
export async function visit(browser, program, { width = 1366, height = 768, language = 'en', hash = '', reducedMotion = 'reduce' } = {}) {
  const context = await browser.newContext({ viewport: { width, height }, reducedMotion });
  const page = await context.newPage();
  const faults = [];
  let allowed = () => false;
  page.on('console', (message) => {
    // Chromium's own remark that software drawing is slow; it says nothing about the page.
    if (/GL Driver Message .*ReadPixels/.test(message.text())) return;
    if ((message.type() === 'error' || message.type() === 'warning') && !allowed(message.text())) faults.push(`console: ${message.text()}`);
  });
  page.on('pageerror', (error) => faults.push(`page: ${error.message}`));
  page.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(`${program.origin}/`) && !/^(blob|data):/.test(url)) faults.push(`left the machine: ${url}`);
  });
  await context.addInitScript((code) => {
    if (!localStorage.getItem('wildling.language')) localStorage.setItem('wildling.language', code);
  }, language);
  // The printed key works once; what it left behind is this browser's from then on.
  if (program.cookies) await context.addCookies(program.cookies);
  await page.goto(program.cookies ? program.origin : program.address);
  await page.waitForSelector('main h1');
  program.cookies ??= await context.cookies();
  if (hash !== '') await go(page, hash);
  return {
    page,
    faults,
    allow: (test) => (allowed = test),
    async done() {
      await context.close();
      assert.deepEqual(faults, []);
    },
  };
}

/** Goes to a view by its address and waits until it stands there. */
export async function go(page, hash) {
  await page.evaluate((to) => (location.hash = to), hash);
  await settled(page);
}

/** Nothing is being fetched, nothing says "reading". */
export async function settled(page) {
  await page.waitForSelector('main h1');
  await page.waitForLoadState('networkidle').catch(() => undefined);
  await page.waitForFunction(() => !/Reading …|Membaca …|Working …|Sedang dihitung …/.test(document.querySelector('#page')?.textContent ?? ''), null, { timeout: 20000 });
}

export async function api(page, path) {
  return page.evaluate(async (address) => (await fetch(address)).json(), path);
}

/** Every view there is: the fixed ones, each question and each note. */
export async function everyView(page) {
  const questions = await api(page, 'api/questions');
  const notes = await api(page, 'api/notes');
  return [
    '#letter', '#ask', '#write', '#gates', '#take', '#numbers', '#sheets', '#map',
    ...questions.map((one) => `#ask/${one.name}`),
    ...notes.map((one) => `#write/${one.name}`),
  ];
}
