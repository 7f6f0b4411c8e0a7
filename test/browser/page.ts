/** Serves files to a headless browser and says what the page asked for and complained of. */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { chromium } from 'playwright-core';
import type { Browser, Page } from 'playwright-core';

const TYPES: Readonly<Record<string, string>> = {
  html: 'text/html',
  js: 'text/javascript',
  css: 'text/css',
  json: 'application/json',
  png: 'image/png',
};
const QUIET = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
/** No name but this machine's has an address, so that nothing could leave it if it tried. */
const AT_HOME = '--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE localhost';

/** Lets a page in a frame of another's keep what it stores, as browsers do unless they are told to block it. */
const STORAGE_IN_FRAMES = '--disable-features=TrackingProtection3pcd';

/** Chromium with a profile of its own. */
export const startBrowser = (...more: readonly string[]): Promise<Browser> =>
  chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    args: [...QUIET, AT_HOME, ...more],
  });

/** The type of a file, by its name. */
export const typeOf = (name: string): string => TYPES[name.split('.').pop() ?? ''] ?? 'text/html';

export interface OpenPage {
  readonly page: Page;
  /** Errors and warnings of the page, and what it was refused. */
  readonly complaints: readonly string[];
  /** Addresses outside of the served files that the page, a worker or a frame of it asked for, by whatever way. */
  readonly outside: readonly string[];
  /** Fails where anything was asked for outside. */
  close(): Promise<void>;
}

/**
 * Opens `at` of these files, by path without the leading slash; '' is the page, and a folder's is its index.html. `played` are
 * addresses that a test answers itself.
 */
export async function openPage(
  files: Readonly<Record<string, string | Uint8Array>>,
  at = '',
  ...played: readonly string[]
): Promise<OpenPage> {
  const server = createServer((request, response) => {
    const asked = new URL(request.url ?? '/', 'http://localhost').pathname.slice(1);
    const name = asked.endsWith('/') ? `${asked}index.html` : asked;
    const body = files[name];
    if (body === undefined) response.writeHead(404).end();
    else response.writeHead(200, { 'Content-Type': typeOf(name) }).end(body);
  });
  await new Promise<void>((resolve) => {
    server.listen(0, 'localhost', resolve);
  });
  const home = `http://localhost:${(server.address() as AddressInfo).port}/`;
  const browser = await startBrowser(...(played.length > 0 ? [STORAGE_IN_FRAMES] : []));
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  // As long as the polls of these tests.
  page.setDefaultTimeout(60_000);
  const complaints: string[] = [];
  const outside: string[] = [];
  const notice = (address: string): void => {
    const known = address.startsWith(home) || /^(data|blob):/.test(address);
    if (!known && !played.some((each) => address.startsWith(each))) outside.push(address);
  };
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.context().on('request', (request) => notice(request.url()));
  page.on('websocket', (socket) => notice(socket.url()));
  page.on('worker', (worker) => notice(worker.url()));
  page.context().on('serviceworker', (worker) => notice(worker.url()));
  await page.goto(home + at);
  return {
    page,
    complaints,
    outside,
    close: async () => {
      await browser.close();
      server.close();
      if (outside.length > 0) throw new Error(`the page asked for ${outside.join(', ')}`);
    },
  };
}
