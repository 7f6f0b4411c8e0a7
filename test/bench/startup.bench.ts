/**
 * Script run while the page of the shared runtime starts: the built add-in in a new Chromium page each time, served from this
 * machine. Times are processor times of the page's main thread by the browser's own trace, so that neither waiting for files nor
 * other work of the machine counts; a script's time is its compiling and its first run. Medians of one run, with their quarters, and the ratio to what was asked.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import { createRequire } from 'node:module';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Script, createContext } from 'node:vm';
import type * as Playwright from 'playwright-core';
import type { Browser } from 'playwright-core';

const ASKED = 150;
const TIMES = 11;
const TYPES: Readonly<Record<string, string>> = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css' };
/** In place of the host's script: the little of it that ours call as they start. */
const NO_OFFICE =
  'globalThis.CustomFunctions = { associate() {} }; globalThis.Office = { onReady: () => new Promise(() => {}) };';

// Not bundled with the benchmark, since the package looks for its own files.
const { chromium } = createRequire(path.join(process.cwd(), 'package.json'))('playwright-core') as typeof Playwright;

interface TraceEvent {
  readonly name: string;
  readonly dur?: number;
  readonly tdur?: number;
  readonly args?: { readonly data?: { readonly url?: string }; readonly fileName?: string };
}
/** Milliseconds by script, with `all` for the page's whole time in script. */
type Times = Readonly<Record<string, number>>;

const median = (values: readonly number[]): number => quantile(values, 0.5);
function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.round(share * (sorted.length - 1))] ?? NaN;
}

/** Loads the page once, in a browser profile of its own so that no compiled script is kept from before. */
async function load(browser: Browser, address: string): Promise<Times> {
  const context = await browser.newContext();
  const page = await context.newPage();
  const devtools = await context.newCDPSession(page);
  const events: TraceEvent[] = [];
  await devtools.send('Performance.enable', { timeDomain: 'threadTicks' });
  await browser.startTracing(page, {
    categories: ['devtools.timeline', 'v8.compile', 'disabled-by-default-v8.compile'],
  });
  await page.goto(address);
  await page.waitForTimeout(300);
  const { metrics } = await devtools.send('Performance.getMetrics');
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString()) as {
    readonly traceEvents: readonly TraceEvent[];
  };
  events.push(...traceEvents);
  await context.close();
  const times: Record<string, number> = {
    all: 1000 * (metrics.find((m) => m.name === 'ScriptDuration')?.value ?? NaN),
  };
  for (const { name, dur = 0, tdur = dur, args } of events) {
    const url = args?.data?.url ?? args?.fileName ?? '';
    if ((name === 'EvaluateScript' || name === 'v8.compile') && url.endsWith('.js')) {
      const script = path.posix.basename(new URL(url).pathname);
      // Compiling a script as it is first run stands inside its run.
      times[script] = Math.max(times[script] ?? 0, tdur / 1000);
    }
  }
  return times;
}

async function measured(browser: Browser, address: string): Promise<readonly Times[]> {
  await load(browser, address); // the browser's own first page
  const all: Times[] = [];
  for (let i = 0; i < TIMES; i++) all.push(await load(browser, address));
  return all;
}

function shown(label: string, values: readonly number[]): void {
  const m = median(values);
  console.log(
    `${label.padEnd(44)} ${m.toFixed(1).padStart(6)} ms (${quantile(values, 0.25).toFixed(1)} to ${quantile(values, 0.75).toFixed(1)}), ${(m / ASKED).toFixed(2)} of ${ASKED} ms`,
  );
}

/** Compiling and first run of functions.js in a new context of Node, by processor time. */
function inNode(text: string): number {
  const context = createContext({ CustomFunctions: { associate: () => undefined }, console });
  const before = process.cpuUsage();
  new Script(text, { filename: 'functions.js' }).runInContext(context);
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

async function main(): Promise<void> {
  const executablePath = process.env['CHROMIUM'] ?? '/usr/bin/chromium';
  const root = process.cwd();
  const dist = mkdtempSync(path.join(tmpdir(), 'rodsheet-startup-'));
  try {
    execFileSync(
      process.execPath,
      ['node_modules/webpack/bin/webpack.js', '--env', 'only=addin', '--env', 'office=package', '--output-path', dist],
      { cwd: root, stdio: 'inherit' },
    );
    for (const name of readdirSync(dist).filter((n) => n.endsWith('.js')))
      console.log(
        `${name.padEnd(44)} ${(readFileSync(path.join(dist, name)).length / 1000).toFixed(0).padStart(6)} kB, unpacked`,
      );
    const functions = readFileSync(path.join(dist, 'functions.js'), 'utf8');
    shown(
      'functions.js in Node, processor time',
      Array.from({ length: TIMES }, () => inNode(functions)),
    );
    if (!existsSync(executablePath)) {
      console.log(`no Chromium at ${executablePath}: the page was not measured`);
      return;
    }
    const server = createServer((request, response) => {
      const name = new URL(request.url ?? '/', 'http://localhost').pathname.slice(1);
      const file = path.join(dist, name.replace('without-office.html', 'pane.html'));
      if (name === 'none.js') response.writeHead(200, { 'Content-Type': 'text/javascript' }).end(NO_OFFICE);
      else if (!file.startsWith(dist) || !existsSync(file)) response.writeHead(404).end();
      else {
        const body = readFileSync(file);
        response.writeHead(200, { 'Content-Type': TYPES[path.extname(file)] ?? 'application/octet-stream' });
        response.end(name === 'without-office.html' ? body.toString().replace('office/office.js', 'none.js') : body);
      }
    });
    await new Promise<void>((resolve) => {
      server.listen(0, 'localhost', resolve);
    });
    const home = `http://localhost:${(server.address() as AddressInfo).port}`;
    const browser = await chromium.launch({
      executablePath,
      args: [
        '--no-sandbox',
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    });
    const without = await measured(browser, `${home}/without-office.html`);
    const withOffice = await measured(browser, `${home}/pane.html`);
    await browser.close();
    server.close();
    shown(
      'functions.js in Chromium',
      without.map((t) => t['functions.js'] ?? NaN),
    );
    shown(
      'all script of the page, without office.js',
      without.map((t) => t['all'] ?? NaN),
    );
    shown(
      'all script of the page, with office.js',
      withOffice.map((t) => t['all'] ?? NaN),
    );
  } finally {
    rmSync(dist, { recursive: true, force: true });
  }
}

void main();
