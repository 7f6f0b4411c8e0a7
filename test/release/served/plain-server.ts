/** A plain static web server that knows nothing of releases: Python's. */
import { spawn } from 'node:child_process';
import { get } from 'node:http';
import { createServer, type AddressInfo } from 'node:net';
import { text } from 'node:stream/consumers';
import { setTimeout } from 'node:timers/promises';

export interface Served {
  /** Address of the folder, without a slash at the end. */
  readonly at: string;
  end(): Promise<void>;
}

export async function serve(folder: string): Promise<Served> {
  const port = await freePort();
  const server = spawn('python3', ['-m', 'http.server', String(port), '--bind', '127.0.0.1', '--directory', folder], {
    stdio: 'ignore',
  });
  const at = `http://localhost:${port}`;
  for (let tries = 0; !(await answers(at)); tries++) {
    if (tries > 200 || server.exitCode !== null) throw new Error('the web server does not answer');
    await setTimeout(100);
  }
  return {
    at,
    end: () =>
      new Promise((resolve) => {
        if (server.exitCode !== null || server.signalCode !== null) {
          resolve();
          return;
        }
        server.once('exit', () => resolve());
        server.kill();
      }),
  };
}

/** What stands at an address. Not by `fetch`: jsdom puts its own beneath it, which fails on a server that closes while an answer is being read. */
export function ask(address: string): Promise<{ readonly status: number; readonly text: string }> {
  return new Promise((resolve, reject) => {
    get(address, { agent: false }, (response) => {
      text(response).then((whole) => resolve({ status: response.statusCode ?? 0, text: whole }), reject);
    }).once('error', reject);
  });
}

const answers = (at: string): Promise<boolean> =>
  ask(at).then(
    () => true,
    () => false,
  );

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const { port } = probe.address() as AddressInfo;
      probe.close(() => resolve(port));
    });
  });
}
