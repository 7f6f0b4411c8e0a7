/** Serves files to a headless browser and says what the page asked for and complained of. */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { chromium } from 'playwright-core';
import type { Page } from 'playwright-core';

const TYPES: Readonly<Record<string, string>> = { html: 'text/html', js: 'text/javascript', css: 'text/css', json: 'application/json' };
const QUIET = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
  '--disable-component-update', '--disable-sync'];

export interface OpenPage {
  readonly page: Page;
  /** Errors and warnings of the page, and what it was refused. */
  readonly complaints: readonly string[];
  /** Addresses asked for outside of the served files. */
  readonly outside: readonly string[];
  close(): Promise<void>;
}

/** Opens `/` of these files, by path without the leading slash; '' is the page. */
export async function openPage(files: Readonly<Record<string, string | Uint8Array>>): Promise<OpenPage> {
  const server = createServer((request, response) => {
    const name = new URL(request.url ?? '/', 'http://localhost').pathname.slice(1);
    const body = files[name];
    if (body === undefined) response.writeHead(404).end();
    else response.writeHead(200, { 'Content-Type': TYPES[name.split('.').pop() ?? ''] ?? 'text/html' }).end(body);
  });
  await new Promise<void>((resolve) => {
    server.listen(0, 'localhost', resolve);
  });
  const home = `http://localhost:${(server.address() as AddressInfo).port}/`;
  const browser = await chromium.launch({ executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium', args: QUIET });
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const complaints: string[] = [];
  const outside: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => {
    if (!request.url().startsWith(home) && !request.url().startsWith('data:')) outside.push(request.url());
  });
  await page.goto(home);
  return {
    page,
    complaints,
    outside,
    close: async () => {
      await browser.close();
      server.close();
    },
  };
}
