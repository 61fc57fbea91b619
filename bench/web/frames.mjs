// First useful paint, and frame times while the map is panned at four scales, in Chromium's software WebGL.
import { createRequire } from 'node:module';
import { at, cookieOf } from './server.mjs';

const require = createRequire(new URL('../../web/package.json', import.meta.url));
const { chromium } = require('playwright-core');

export const ZOOMS = [13.2, 14.6, 16, 18];
const FRAMES = 120;

export async function launch() {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--no-first-run'],
  });
}

/** A window of a laptop that the program knows already. */
async function known(browser, server) {
  const context = await browser.newContext({ viewport: { width: 1366, height: 768 } });
  const [name, value] = (await cookieOf(server)).split('=');
  await context.addCookies([{ name, value, url: server.origin }]);
  return context;
}

/** Milliseconds from asking for the page to its first sentence standing there. */
export async function measurePaint(browser, server, times = 5) {
  const values = [];
  const context = await known(browser, server);
  for (let i = 0; i <= times; i++) {
    const page = await context.newPage();
    await page.addInitScript(() => {
      const look = () => {
        const answer = document.querySelector('main .answer, main p');
        if (answer && answer.textContent.trim() !== '') requestAnimationFrame(() => (window.firstUseful = performance.now()));
        else setTimeout(look, 2);
      };
      look();
    });
    await page.goto(`${server.origin}/`);
    await page.waitForFunction(() => window.firstUseful !== undefined, null, { timeout: 20000 });
    if (i > 0) values.push(await page.evaluate(() => window.firstUseful));
    await page.close();
  }
  await context.close();
  return { median: at(values, 0.5), worst: Math.max(...values) };
}

export async function measureFrames(browser, server) {
  const context = await known(browser, server);
  const page = await context.newPage();
  await page.goto(`${server.origin}/#map`);
  const opened = performance.now();
  await page.waitForFunction(() => document.querySelector('.map-frame')?.view?.seedlings && document.querySelector('.map-frame').view.map.loaded(), null, { timeout: 60000 });
  const openMs = performance.now() - opened;
  const seedlings = await page.evaluate(() => document.querySelector('.map-frame').view.places.seedlings);
  const rows = [];
  for (const zoom of ZOOMS) {
    const result = await page.evaluate(
      async ({ zoom, frames }) => {
        const { map, seedlings } = document.querySelector('.map-frame').view;
        map.jumpTo({ zoom });
        await new Promise((settled) => (map.once('idle', settled), map.triggerRepaint()));
        const times = [];
        let last = 0;
        let drawn = 0;
        await new Promise((done) => {
          const frame = (now) => {
            if (last > 0) times.push(now - last);
            last = now;
            drawn = Math.max(drawn, seedlings.drawn);
            if (times.length >= frames) return done();
            const turn = (times.length / frames) * 2 * Math.PI;
            map.panBy([12 * Math.cos(turn), 12 * Math.sin(turn)], { animate: false });
            requestAnimationFrame(frame);
          };
          requestAnimationFrame(frame);
        });
        return { times, drawn };
      },
      { zoom, frames: FRAMES },
    );
    const { times, drawn } = result;
    rows.push({ zoom, chunks: drawn, median: at(times, 0.5), p95: at(times, 0.95), worst: Math.max(...times) });
  }
  await context.close();
  return { seedlings, openMs, rows };
}
