// Starts the real program on a copy of the demo's file, in a folder that is thrown away.
import { execFile, spawn } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';

const root = fileURLToPath(new URL('../../', import.meta.url));
export const PROGRAM = resolve(process.env.WILDLING_PROGRAM ?? join(root, 'build/dev/wildling'));
export const DEMO = resolve(process.env.WILDLING_DEMO ?? join(root, 'build/dev/demo-out/merunai.gpkg'));
/** The programme of which little is known. */
export const POOR = join(dirname(DEMO), 'poor/ladang-lama.gpkg');
export const TODAY = '2026-02-02';
const execute = promisify(execFile);

for (const needed of [PROGRAM, DEMO, POOR]) if (!existsSync(needed)) throw new Error(`${needed} is not there: ./dev test makes it`);

/** A folder with the demo's file in it, and where the program keeps its secrets. */
export function workplace(demo = DEMO) {
  const folder = mkdtempSync(join(tmpdir(), 'wildling-e2e-'));
  const file = join(folder, 'programme.gpkg');
  copyFileSync(demo, file);
  const env = { ...process.env, XDG_CACHE_HOME: join(folder, 'cache'), HOME: folder, TZ: '<+0545>-5:45' };
  return { folder, file, env, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

/** The command line on the same file: its output. */
export async function wildling(place, ...args) {
  return (await execute(PROGRAM, args, { env: place.env, maxBuffer: 1 << 28 })).stdout;
}

/** `wildling open`: resolves when it has printed its address. */
export async function openProgram(place, ...more) {
  const child = spawn(PROGRAM, ['open', place.file, '--no-browser', ...(more.includes('--today') ? [] : ['--today', TODAY]), ...more], { env: place.env });
  let said = '';
  const address = await new Promise((found, failed) => {
    const listen = (chunk) => {
      said += chunk;
      const match = /http:\/\/127\.0\.0\.1:\d+\/\S*/.exec(said);
      if (match) found(match[0]);
    };
    child.stdout.on('data', listen);
    child.stderr.on('data', listen);
    child.on('exit', (code) => failed(new Error(`the program ended with ${code}: ${said}`)));
    setTimeout(() => failed(new Error(`no address after 20 s: ${said}`)), 20000).unref();
  });
  const ended = new Promise((done) => child.on('exit', done));
  return {
    address,
    origin: new URL(address).origin,
    port: new URL(address).port,
    pid: child.pid,
    /** @param signal SIGTERM ends it cleanly, SIGKILL does not */
    async end(signal = 'SIGTERM') {
      child.kill(signal);
      await ended;
    },
  };
}
