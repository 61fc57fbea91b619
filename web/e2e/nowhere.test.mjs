// The same letter on a machine that has no network but its own: no route leads out, so nothing can have left.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';

const inside = (command) => spawnSync('unshare', ['-rn', 'sh', '-c', `ip link set lo up && ${command}`], { encoding: 'utf8', timeout: 180000, env: { ...process.env, NODE_TEST_CONTEXT: undefined } });
const permitted = inside('true').status === 0;

test('the letter needs no network but this machine', { skip: permitted ? false : 'unshare is not permitted here' }, () => {
  const file = fileURLToPath(new URL('letter.test.mjs', import.meta.url));
  const run = inside(`'${process.execPath}' --test '${file}'`);
  assert.equal(run.status, 0, run.stdout.slice(-3000) + run.stderr.slice(-1000));
});
