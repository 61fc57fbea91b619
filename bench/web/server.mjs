// Starts `wildling open` on a programme and speaks with it as a page does.
import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';

export async function open(program, file) {
  const child = spawn(program, ['open', file, '--port', '0', '--no-browser'], { stdio: ['ignore', 'pipe', 'inherit'] });
  const address = await new Promise((found, failed) => {
    createInterface({ input: child.stdout }).on('line', (line) => {
      const match = /http:\/\/127\.0\.0\.1:\d+\/\?key=\S+/.exec(line);
      if (match) found(match[0]);
    });
    child.on('exit', (code) => failed(new Error(`wildling open ended with ${code}`)));
  });
  return { address, origin: new URL(address).origin, pid: child.pid, close: () => child.kill() };
}

/** The cookie that the address's key is exchanged for: once, then it is this page's and that one's. */
export async function cookieOf(server) {
  if (server.cookie === undefined) {
    const answer = await fetch(server.address, { redirect: 'manual' });
    server.cookie = answer.headers.getSetCookie().map((cookie) => cookie.split(';')[0]).join('; ');
  }
  return server.cookie;
}

/** Sorted copy's value at a share, 0 to 1. */
export function at(values, share) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}
