// Milliseconds of the addresses a page asks, with one page that asks again as soon as it has its answer, and with twenty
// that rest 200 ms between questions: ten times as often as an open page asks. A page asks for the seedlings once and is
// told "not changed" afterwards; both are measured.
import { at, cookieOf } from './server.mjs';

const ROUNDS = 60;

/** The addresses of a page that is used: what it asks by itself, a number that is opened, a question that is asked. */
async function paths(origin, headers) {
  const get = async (path) => (await fetch(`${origin}/api/${path}`, { headers })).json();
  const opens = JSON.stringify(await get('plan')).match(/"opens":\{"[^"]+":"([^"]+)"/)?.[1];
  const asked = (await get('questions')).find(({ slow, fields }) => !slow && !fields.some(({ required }) => required));
  return [
    ...['state', 'plan', 'land', 'findings', 'parameters', 'questions', 'notes'],
    ...(opens ? [`workings?key=${encodeURIComponent(opens)}`] : []),
    ...(asked ? [`reply?name=${asked.name}`] : []),
  ];
}

async function timed(url, headers) {
  const begin = performance.now();
  const answer = await fetch(url, { headers });
  await answer.arrayBuffer();
  return { ms: performance.now() - begin, status: answer.status, tag: answer.headers.get('etag') };
}

async function page(origin, headers, paths, rounds, restMs, into) {
  await new Promise((rested) => setTimeout(rested, restMs * Math.random()));
  for (let round = 0; round < rounds; round++) {
    for (const path of paths) {
      const { ms, status } = await timed(`${origin}/api/${path}`, headers);
      (into[path] ??= { ms: [], status: new Set() }).ms.push(ms);
      into[path].status.add(status);
      if (restMs > 0) await new Promise((rested) => setTimeout(rested, restMs));
    }
  }
}

export async function measureApi(server) {
  const headers = { cookie: await cookieOf(server), origin: server.origin };
  const rows = [];
  const asked = await paths(server.origin, headers);
  for (const path of [...asked, 'places']) await timed(`${server.origin}/api/${path}`, headers); // warm
  const { tag } = await timed(`${server.origin}/api/places`, headers);
  for (const pages of [1, 20]) {
    const into = {};
    const [rounds, restMs] = pages === 1 ? [ROUNDS, 0] : [Math.ceil(ROUNDS / 10), 200];
    await Promise.all(Array.from({ length: pages }, () => page(server.origin, headers, asked, rounds, restMs, into)));
    const known = {};
    await Promise.all(
      Array.from({ length: pages }, () => page(server.origin, { ...headers, 'if-none-match': tag }, ['places'], rounds, restMs, known)),
    );
    const whole = {};
    await Promise.all(Array.from({ length: pages }, () => page(server.origin, headers, ['places'], 4, restMs, whole)));
    into['places, not changed'] = known['places'];
    into['places, all bytes'] = whole['places'];
    for (const [path, { ms, status }] of Object.entries(into)) {
      rows.push({ pages, path, status: [...status].join('/'), n: ms.length, p50: at(ms, 0.5), p99: at(ms, 0.99) });
    }
  }
  return rows;
}
