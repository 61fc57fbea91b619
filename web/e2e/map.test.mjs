// The map on the demo: it draws, it answers, it measures, it says the same in words; with and without a mouse.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, test } from 'node:test';
import { launch, visit } from './browser.mjs';
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

/** The map view with everything drawn; `near`: on the first seedlings of block B1 at that zoom. */
async function map({ near, ...options } = {}) {
  const visitor = await visit(browser, program, { ...options, hash: '#map' });
  const { page } = visitor;
  await page.waitForFunction(
    () => {
      const view = document.querySelector('.map-frame')?.view;
      return view?.seedlings && view.map.loaded();
    },
    null,
    { timeout: 30000 },
  );
  if (near !== undefined) {
    await page.evaluate(async (zoom) => {
      const { map, places } = document.querySelector('.map-frame').view;
      const block = places.blocks.find(({ open, seedlings }) => open && seedlings > 0);
      const { centre } = places.chunks[block.first_chunk];
      const lat = (Math.atan(Math.sinh((1 - 2 * centre.y) * Math.PI)) * 180) / Math.PI;
      map.jumpTo({ zoom, center: [centre.x * 360 - 180, lat] });
      await new Promise((settled) => (map.once('idle', settled), map.triggerRepaint()));
    }, near);
  }
  return visitor;
}

/** Pixels of the map's canvas near to a colour, and how many colours there are. */
async function pixels(page, colour) {
  return page.evaluate(async (wanted) => {
    const { map } = document.querySelector('.map-frame').view;
    const canvas = map.getCanvas();
    const gl = canvas.getContext('webgl2');
    const data = new Uint8Array(4 * canvas.width * canvas.height);
    await new Promise((drawn) => {
      map.once('render', () => {
        gl.readPixels(0, 0, canvas.width, canvas.height, gl.RGBA, gl.UNSIGNED_BYTE, data);
        drawn();
      });
      map.triggerRepaint();
    });
    const colours = new Set();
    let like = 0;
    for (let i = 0; i < data.length; i += 4) {
      colours.add((data[i] << 16) | (data[i + 1] << 8) | data[i + 2]);
      const far = Math.abs(data[i] - wanted[0]) + Math.abs(data[i + 1] - wanted[1]) + Math.abs(data[i + 2] - wanted[2]);
      like += far < 40 ? 1 : 0;
    }
    return { colours: colours.size, share: like / (data.length / 4) };
  }, colour);
}

const LEAF = [33, 107, 51];
const GROUND = [246, 242, 231];

test('the map is not blank: land from afar, seedlings from near', async () => {
  const far = await map();
  const land = await pixels(far.page, GROUND);
  assert.ok(land.colours > 50, `${land.colours} colours`);
  assert.ok(land.share < 0.98, 'only bare ground is drawn');
  await far.done();
  const near = await map({ near: 19 });
  const seedlings = await pixels(near.page, LEAF);
  assert.ok(seedlings.share > 0.001, `${seedlings.share} of the pixels are leaf`);
  assert.ok(await near.page.evaluate(() => document.querySelector('.map-frame').view.seedlings.drawn > 0));
  await near.done();
});

test('seedlings are drawn where the buffer puts them', async () => {
  const visitor = await map({ near: 19.5 });
  const off = await visitor.page.evaluate(() => {
    const { map, places } = document.querySelector('.map-frame').view;
    const canvas = map.getCanvas();
    const gl = canvas.getContext('webgl2');
    const ratio = canvas.width / canvas.clientWidth;
    const lat = (y) => (Math.atan(Math.sinh((1 - 2 * y) * Math.PI)) * 180) / Math.PI;
    return new Promise((tell) => {
      map.once('render', () => {
        let hit = 0;
        let seen = 0;
        const pixel = new Uint8Array(4);
        for (const chunk of places.chunks) {
          for (let i = chunk.first; i < chunk.first + chunk.count; i++) {
            if (places.species[places.kinds[i]]?.group !== 'pioneer') continue;
            const x = chunk.centre.x + places.offsets[2 * i];
            const y = chunk.centre.y + places.offsets[2 * i + 1];
            const at = map.project([x * 360 - 180, lat(y)]);
            if (at.x < 5 || at.y < 5 || at.x > canvas.clientWidth - 5 || at.y > canvas.clientHeight - 40) continue;
            gl.readPixels(Math.round(at.x * ratio), canvas.height - 1 - Math.round((at.y + 1) * ratio), 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel);
            seen++;
            hit += pixel[0] - pixel[2] > 60 ? 1 : 0; // straw, not ground
          }
        }
        tell({ hit, seen });
      });
      map.triggerRepaint();
    });
  });
  assert.ok(off.seen > 5, `${off.seen} pioneers in view`);
  assert.ok(off.hit / off.seen > 0.9, `${off.hit} of ${off.seen} stand where they should`);
  await visitor.done();
});

test('a click says block, row, number and species', async () => {
  const visitor = await map({ near: 19 });
  const { page } = visitor;
  const at = await page.evaluate(() => {
    const { map, places } = document.querySelector('.map-frame').view;
    const lat = (y) => (Math.atan(Math.sinh((1 - 2 * y) * Math.PI)) * 180) / Math.PI;
    const box = map.getCanvas().getBoundingClientRect();
    const middle = { x: box.width / 2, y: box.height / 2 };
    let best = null;
    for (const chunk of places.chunks) {
      for (let i = chunk.first; i < chunk.first + chunk.count; i++) {
        if (places.kinds[i] === 255) continue;
        const point = map.project([(chunk.centre.x + places.offsets[2 * i]) * 360 - 180, lat(chunk.centre.y + places.offsets[2 * i + 1])]);
        const far = Math.hypot(point.x - middle.x, point.y - middle.y);
        if (best === null || far < best.far) best = { far, x: box.x + point.x, y: box.y + point.y, name: places.species[places.kinds[i]].name };
      }
    }
    return best;
  });
  await page.mouse.click(at.x, at.y);
  await page.waitForSelector('.map-answer');
  const said = await page.textContent('.map-found');
  assert.match(said, /Block B\d+, row \d+, number \d+: /);
  assert.ok(said.includes(at.name), said);
  await visitor.done();
});

test('the keyboard alone finds what is in the middle and measures', async () => {
  const visitor = await map({ near: 17 });
  const { page } = visitor;
  await page.locator('.map-canvas canvas').focus();
  await page.keyboard.press('Enter');
  assert.match(await page.textContent('.map-found'), /Block B\d+ of /);
  await page.getByRole('button', { name: 'Measure' }).click();
  await page.keyboard.press('Enter');
  for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight');
  await page.waitForTimeout(800);
  await page.keyboard.press('Enter');
  const metres = Number(/([\d.,]+) m over 2 points/.exec(await page.textContent('.map-status'))[1].replace(',', ''));
  assert.ok(metres > 5, `${metres} m`);
  await page.keyboard.press('Escape');
  assert.doesNotMatch(await page.textContent('.map-status'), /points/);
  await visitor.done();
});

test('arrow keys move the map and + brings it nearer', async () => {
  const visitor = await map();
  const { page } = visitor;
  const where = () => page.evaluate(() => {
    const { map } = document.querySelector('.map-frame').view;
    return { lng: map.getCenter().lng, zoom: map.getZoom() };
  });
  const before = await where();
  await page.locator('.map-canvas canvas').focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('+');
  await page.waitForTimeout(800);
  const now = await where();
  assert.ok(now.lng > before.lng);
  assert.ok(now.zoom > before.zoom + 0.5);
  await visitor.done();
});

for (const [language, heading, words] of [
  ['en', 'What the signs mean', ['pioneer: triangle', 'block on hold', 'light and shade', 'North is up', 'WGS 84']],
  ['id', 'Arti tanda-tanda', ['pionir: segitiga', 'petak ditahan', 'terang dan bayang', 'Utara di atas', 'WGS 84']],
]) {
  test(`the legend, the scale and the blocks stand in words (${language})`, async () => {
    const visitor = await map({ language });
    const { page } = visitor;
    const text = await page.innerText('.map-frame');
    for (const word of [heading, ...words]) assert.ok(text.includes(word), `${word} is missing`);
    assert.match(await page.innerText('.map-scale'), /^\d+ k?m$/);
    await page.locator('.map-blocks summary').click();
    await page.waitForSelector('.map-blocks li'); // the list is made after the click
    const blocks = await page.evaluate(() => document.querySelector('.map-frame').view.places.blocks.length);
    assert.equal(await page.locator('.map-blocks li').count(), blocks);
    await page.locator('.map-blocks li button').first().click();
    assert.ok(await page.evaluate(() => document.querySelector('.map-frame').view.map.getZoom() > 15.5));
    assert.match(await page.innerText('.map-found'), /B1/);
    await visitor.done();
  });
}

test('one species is pointed out, the others step back', async () => {
  const visitor = await map({ near: 18 });
  const { page } = visitor;
  const before = await pixels(page, LEAF);
  await page.evaluate(() => {
    const select = document.querySelector('.map-tools select');
    const { places } = document.querySelector('.map-frame').view;
    select.value = [...select.options].map(({ value }) => value).find((value) => value !== '' && places.species[value].group === 'pioneer');
    select.dispatchEvent(new Event('change'));
  });
  const after = await pixels(page, LEAF);
  assert.ok(after.share < before.share / 2, `${before.share} -> ${after.share}`);
  await visitor.done();
});

for (const [width, height] of [[390, 844], [1366, 768]]) {
  test(`axe finds nothing on the map, with a block picked and the list open (${width} wide)`, async () => {
    const visitor = await map({ width, height, near: 18 });
    const { page } = visitor;
    await page.locator('.map-canvas canvas').focus();
    await page.keyboard.press('Enter');
    await page.locator('.map-blocks summary').click();
    await page.waitForSelector('.map-blocks li');
    await page.evaluate(axe);
    const { violations } = await page.evaluate(() => window.axe.run(document, { resultTypes: ['violations'] }));
    assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 160)}`), []);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(over <= 0, `${over} pixels too wide`);
    await visitor.done();
  });
}
