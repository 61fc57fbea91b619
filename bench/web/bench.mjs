// bench/web/bench.mjs PROGRAM FILE PAGE_FOLDER: measures the page on a programme and prints the figures beside the goals.
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { measureApi } from './api.mjs';
import { launch, measureFrames, measurePaint } from './frames.mjs';
import { open } from './server.mjs';

const [program, file, folder] = process.argv.slice(2);
let missed = 0;

function line(what, value, goal, met) {
  if (met === false) missed++;
  const verdict = met === undefined ? '' : met ? 'met' : 'MISSED';
  console.log(`  ${what.padEnd(46)} ${value.padStart(26)}   ${goal.padEnd(26)} ${verdict}`);
}

const ms = (value) => `${value.toFixed(1)} ms`;
const kb = (bytes) => `${(bytes / 1000).toFixed(0)} kB`;

function sizes() {
  const files = readdirSync(folder, { recursive: true }).map(String).filter((name) => name.endsWith('.gz'));
  const size = (ending) =>
    files.filter((name) => ending.test(name)).reduce((sum, name) => sum + statSync(join(folder, name)).size, 0);
  console.log('Sizes, gzipped');
  const scripts = size(/\.m?js\.gz$/);
  line('all scripts with the map and its worker', kb(scripts), '<= 600 kB', scripts <= 600_000);
  line('styles', kb(size(/\.css\.gz$/)), '');
  line('fonts', kb(size(/\.woff2\.gz$/)), '');
}

const server = await open(program, file);
try {
  sizes();
  const browser = await launch();
  console.log('First useful paint, loopback, 5 times');
  const paint = await measurePaint(browser, server);
  line('median', ms(paint.median), '<= 1 s', paint.median <= 1000);
  line('worst', ms(paint.worst), '');
  const { seedlings, openMs, rows } = await measureFrames(browser, server);
  console.log(`Frames while panning, ${seedlings.toLocaleString('en')} seedlings, 1366 x 768, software WebGL`);
  line('opening the map until everything is drawn', ms(openMs), '');
  for (const { zoom, chunks, median, p95, worst } of rows) {
    line(`zoom ${zoom}, ${chunks} chunks: median`, ms(median), '25 to 45 ms or less', median <= 45);
    line('  95 of 100, worst', `${ms(p95)}, ${ms(worst)}`, 'none over 200 ms', worst <= 200);
  }
  await browser.close();
  console.log('API, milliseconds until the last byte');
  for (const { pages, path, status, n, p50, p99 } of await measureApi(server)) {
    const whole = path.endsWith('all bytes');
    line(`${pages} ${pages === 1 ? 'page ' : 'pages'}, ${path} (${status}, n ${n})`, `p50 ${ms(p50)}, p99 ${ms(p99)}`, whole ? '' : 'p99 <= 50 ms', whole ? undefined : p99 <= 50);
  }
} finally {
  server.close();
}
console.log(missed === 0 ? 'all goals met' : `${missed} goals missed`);
