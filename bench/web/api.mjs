// Milliseconds of the addresses a page asks, with one page and with twenty at once, each asking again as soon as it has
// its answer. A page asks for the seedlings once and is told "not changed" afterwards; both are measured.
import { at, cookieOf } from './server.mjs';

const PATHS = ['state', 'plan', 'land', 'findings', 'parameters', 'questions', 'workings?key=total/planted', 'reply?name=today'];
const ROUNDS = 60;

async function timed(url, headers) {
  const begin = performance.now();
  const answer = await fetch(url, { headers });
  await answer.arrayBuffer();
  return { ms: performance.now() - begin, status: answer.status, tag: answer.headers.get('etag') };
}

async function page(origin, headers, paths, rounds, into) {
  for (let round = 0; round < rounds; round++) {
    for (const path of paths) {
      const { ms, status } = await timed(`${origin}/api/${path}`, headers);
      (into[path] ??= { ms: [], status: new Set() }).ms.push(ms);
      into[path].status.add(status);
    }
  }
}

export async function measureApi(server) {
  const headers = { cookie: await cookieOf(server), origin: server.origin };
  const rows = [];
  for (const path of [...PATHS, 'places']) await timed(`${server.origin}/api/${path}`, headers); // warm
  const { tag } = await timed(`${server.origin}/api/places`, headers);
  for (const pages of [1, 20]) {
    const into = {};
    const rounds = Math.ceil(ROUNDS / (pages === 1 ? 1 : 4));
    await Promise.all(Array.from({ length: pages }, () => page(server.origin, headers, PATHS, rounds, into)));
    const known = {};
    await Promise.all(
      Array.from({ length: pages }, () => page(server.origin, { ...headers, 'if-none-match': tag }, ['places'], rounds, known)),
    );
    const whole = {};
    await Promise.all(Array.from({ length: pages }, () => page(server.origin, headers, ['places'], 4, whole)));
    into['places, not changed'] = known['places'];
    into['places, all bytes'] = whole['places'];
    for (const [path, { ms, status }] of Object.entries(into)) {
      rows.push({ pages, path, status: [...status].join('/'), n: ms.length, p50: at(ms, 0.5), p99: at(ms, 0.99) });
    }
  }
  return rows;
}
