/** The server of `npm start`, before it has built anything. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer, request } from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const ROOT = path.resolve(import.meta.dirname, '../..');
const PORT = 3000;

const other = createServer((_, response) => response.end('somebody else'));
let started: ReturnType<typeof start>;
let said = '';
let port = 0;

function start() {
  return spawn(process.execPath, ['node_modules/webpack/bin/webpack.js', 'serve', '--env', 'only=addin'], {
    cwd: ROOT,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
}

beforeAll(async () => {
  other.on('error', () => undefined).listen(PORT, 'localhost');
  await Promise.race([once(other, 'listening'), once(other, 'error')]);
  started = start();
  await new Promise<void>((resolve, reject) => {
    const hear = (text: Buffer): void => {
      said += text.toString();
      port = Number(/this one took (\d+)/.exec(said)?.[1]);
      if (port > 0) resolve();
    };
    started.stdout.on('data', hear);
    started.stderr.on('data', hear);
    started.on('exit', () => reject(new Error(`it ended: ${said}`)));
  });
});
afterAll(() => {
  started.removeAllListeners('exit');
  started.kill('SIGKILL');
  other.close();
});

const status = (host: string, at: string): Promise<number | undefined> =>
  new Promise((resolve, reject) => {
    request({ host: 'localhost', port, path: at, headers: { host } }, (response) => {
      response.resume();
      resolve(response.statusCode);
    })
      .on('error', reject)
      .end();
  });

describe('the server of npm start', () => {
  it('says that its port is taken, and takes the next that is free', () => {
    expect(said).toContain(`Port ${PORT} is taken by another program; this one took ${port}.`);
    expect(port).toBeGreaterThan(PORT);
    expect((other.address() as AddressInfo | null)?.port ?? PORT).toBe(PORT);
  });
  it.each(['/reference', '/reference/', '/reference/index.html', '/pane.html'])(
    'answers %s for no other name of a host than its own',
    async (at) => {
      expect(await status(`attacker.example:${port}`, at)).toBe(403);
    },
  );
  it('answers for its own', async () => {
    expect(await status(`localhost:${port}`, '/reference')).toBe(302);
  });
});
