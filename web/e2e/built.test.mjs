// What the build weighs, and whether the page's idea of the program's JSON is the program's.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { api, launch, visit } from './browser.mjs';
import { openProgram, workplace } from './program.mjs';

const web = fileURLToPath(new URL('../', import.meta.url));
const BUDGET = 600_000;

test('script and worker are at most 600 kB gzipped', (t) => {
  const folder = join(web, '../build/web/assets');
  const scripts = readdirSync(folder).filter((name) => /\.m?js\.gz$/.test(name));
  const bytes = scripts.reduce((sum, name) => sum + statSync(join(folder, name)).size, 0);
  t.diagnostic(`${bytes} bytes in ${scripts.length} files`);
  assert.ok(scripts.length >= 3 && bytes <= BUDGET, `${bytes} bytes`);
});

// Long lists are cut: their first members have the shape of all.
function cut(value) {
  if (Array.isArray(value)) return value.slice(0, 4).map(cut);
  if (value && typeof value === 'object') return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, cut(one)]));
  return value;
}

test("the page's types are those of the program's JSON", async () => {
  const place = workplace();
  const [browser, program] = await Promise.all([launch(), openProgram(place)]);
  try {
    const visitor = await visit(browser, program);
    const get = (path) => api(visitor.page, path);
    const questions = await get('api/questions');
    const asked = questions.filter((one) => !one.slow && !one.fields.some((field) => field.required));
    const samples = {
      State: [await get('api/state')],
      Plan: [await get('api/plan')],
      Intake: await get('api/findings'),
      Parameter: await get('api/parameters'),
      Question: questions,
      NoteKind: await get('api/notes'),
      WorkingsAnswer: [await get('api/workings?key=programme/planted'), await get('api/workings?key=parameter/tending.wage_per_day')],
      Reply: await Promise.all(asked.map((one) => get(`api/reply?name=${one.name}`))),
    };
    const list = Object.entries(samples).flatMap(([type, values]) => values.map((value, i) => ({ type, i, value: cut(value) })));
    const lines = [
      `import type { ${Object.keys(samples).join(', ')} } from '../../web/src/api/types';`,
      'type Frozen<T> = T extends (infer U)[] ? readonly Frozen<U>[] : T extends object ? { readonly [K in keyof T]: Frozen<T[K]> } : T;',
      ...list.map(({ type, i, value }) => `const sent${type}${i} = ${JSON.stringify(value)} as const;\nexport const read${type}${i}: Frozen<${type}> = sent${type}${i};`),
    ];
    const folder = join(web, '../build/web-shapes');
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, 'shapes.ts'), `${lines.join('\n')}\n`);
    const options = ['--noEmit', '--strict', '--exactOptionalPropertyTypes', '--skipLibCheck', '--ignoreConfig', '--target', 'es2022', '--module', 'esnext', '--moduleResolution', 'bundler'];
    const run = spawnSync(process.execPath, [join(web, 'node_modules/typescript/bin/tsc'), ...options, join(folder, 'shapes.ts')], { encoding: 'utf8' });
    assert.equal(run.status, 0, run.stdout.slice(0, 3000));
    await visitor.done();
  } finally {
    await browser.close();
    await program.end();
    place.remove();
  }
});
