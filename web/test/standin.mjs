// Development only: answers a few of the program's addresses from fixtures and the command line, so that the page
// can be looked at without the server. usage: node test/standin.mjs PROGRAM FILE [PORT]
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname } from 'node:path';
import { fileURLToPath } from 'node:url';

const [program, file, port = '8738'] = process.argv.slice(2);
const root = fileURLToPath(new URL('../../', import.meta.url));
const run = (...args) => execFileSync(program, args, { encoding: 'utf8', maxBuffer: 1 << 28 });
const plan = run('show', file, '--format', 'json');
const head = JSON.parse(plan).head;
const words = (language) =>
  Object.assign({}, ...readdirSync(`${root}data/words`).filter((name) => name.endsWith(`.${language}.json`)).map((name) => JSON.parse(readFileSync(`${root}data/words/${name}`, 'utf8'))));
const state = {
  program_version: head.program_version, file, programme: head.programme, language: 'en', data_version: 1, today: head.today,
  writable: true, invented_figures: head.invented_figures, plan: { number: head.number, stale: false, today: head.today, seed: head.seed }, job: null,
};
const types = { '.html': 'text/html; charset=utf-8', '.js': 'text/javascript', '.css': 'text/css', '.svg': 'image/svg+xml', '.woff2': 'font/woff2', '.mjs': 'text/javascript' };

function workings(key) {
  const nodes = JSON.parse(run('explain', file, key, '--format', 'json'));
  const byKey = new Map(nodes.map((node) => [node.key, node]));
  const node = byKey.get(key);
  return { node, formula: node.formula ? { id: node.formula, text: node.formula, source: '' } : null, inputs: node.inputs.map((input) => byKey.get(input)), used_by: [], parameter: null };
}

createServer((request, response) => {
  const url = new URL(request.url, 'http://x');
  const json = (value) => response.writeHead(200, { 'Content-Type': 'application/json' }).end(typeof value === 'string' ? value : JSON.stringify(value));
  try {
    if (url.pathname === '/api/state') return json(state);
    if (url.pathname.startsWith('/api/words/')) return json(words(url.pathname.slice(11)));
    if (url.pathname === '/api/plan') return json(plan);
    if (url.pathname === '/api/workings') return json(workings(url.searchParams.get('key')));
    if (/^\/api\/(findings|questions|notes|parameters)$/.test(url.pathname)) return json([]);
    const name = `${root}build/web${url.pathname === '/' ? '/index.html' : url.pathname}.gz`;
    if (!existsSync(name)) return response.writeHead(404).end();
    return response.writeHead(200, { 'Content-Type': types[extname(name.slice(0, -3))] ?? '', 'Content-Encoding': 'gzip' }).end(readFileSync(name));
  } catch (fault) {
    return response.writeHead(500).end(String(fault));
  }
}).listen(Number(port), '127.0.0.1', () => console.log(`http://127.0.0.1:${port}/`));
