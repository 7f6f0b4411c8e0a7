/** The pane's server as a browser, the program and a stranger meet it. */
import { request } from 'node:http';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PaneServer } from '../../src/libreoffice/process/pane-server.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-pane-'));
let server: PaneServer;
beforeAll(async () => {
  writeFileSync(path.join(folder, 'pane.html'), '<title>Rodsheet</title>');
  server = await PaneServer.start(folder);
});
afterAll(() => {
  server.close();
  rmSync(folder, { recursive: true, force: true });
});

interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | readonly string[] | undefined>>;
  readonly text: string;
}

/** Unlike `fetch`, with any Host header. */
function ask(url: string, headers: Record<string, string> = {}, body?: unknown): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = request(url, { method: body === undefined ? 'GET' : 'POST', headers }, (response) => {
      const pieces: Buffer[] = [];
      response.on('data', (piece: Buffer) => pieces.push(piece));
      response.on('end', () =>
        resolve({
          status: response.statusCode ?? 0,
          headers: response.headers,
          text: Buffer.concat(pieces).toString(),
        }),
      );
    });
    asked.on('error', reject);
    asked.end(body === undefined ? undefined : JSON.stringify(body));
  });
}

const post = async (url: string, body: unknown): Promise<unknown> => JSON.parse((await ask(url, {}, body)).text);

describe('the server of the pane', () => {
  it('serves the page at an address that nobody can guess, and lets it load nothing from elsewhere', async () => {
    const { status, text, headers } = await ask(server.page);
    expect([status, text]).toEqual([200, '<title>Rodsheet</title>']);
    expect(headers['content-security-policy']).toContain("default-src 'none'");
    expect(headers['referrer-policy']).toBe('no-referrer');
    expect(new URL(server.page)).toMatchObject({
      hostname: '127.0.0.1',
      pathname: expect.stringMatching(/^\/[\w-]{32}\/$/) as string,
    });
  });

  it.each([
    ['without the token', () => new URL('/', server.page).href, {}, 404],
    ['with a wrong token', () => new URL(`/${'x'.repeat(32)}/`, server.page).href, {}, 404],
    ['for a file it does not have', () => `${server.page}../process.cjs`, {}, 404],
    ['for a property of an object', () => `${server.page}constructor`, {}, 404],
    ['under another name that leads here', () => server.page, { Host: 'example.com' }, 403],
    ['under localhost', () => server.page, { Host: 'localhost' }, 403],
    ["from another site's page", () => server.page, { Origin: 'https://example.com' }, 403],
  ])('refuses who asks %s', async (_, url, headers, status) => {
    expect((await ask(url(), headers)).status).toBe(status);
  });

  it('takes what is selected from the program only, and asks nothing of it for the token of the page', async () => {
    expect((await ask(`${server.page}selected`, {}, null)).status).toBe(404);
    expect((await ask(`${server.page}asked`, {}, null)).status).toBe(404);
    expect((await ask(`${server.program}read`, {}, {})).status).toBe(404);
  });

  it('hands questions of the page to the program, one after the other, and brings its answers back', async () => {
    const read = post(`${server.page}read`, { reference: 'A1:A2', sheet: 'Pins' });
    const first = (await post(`${server.program}asked`, null)) as { readonly id: number };
    expect(first).toMatchObject({ do: 'read', with: ['A1:A2', 'Pins'] });
    const next = post(`${server.program}asked`, { id: first.id, result: [[1], [2]] });
    expect(await read).toEqual({ result: [[1], [2]] });

    // A result of several cells goes in as an array over so many, in the writing of the program.
    const put = post(`${server.page}put`, { formula: '=BURN.PIN.RODS({3.5;4},{12;10})' });
    const second = (await next) as { readonly id: number };
    expect(second).toMatchObject({ do: 'put', with: ['=BURN.PIN.RODS({3.5|4};{12|10})', 2, 1] });
    const last = post(`${server.program}asked`, { id: second.id, problem: 'B2 is not blank' });
    expect(await put).toEqual({ problem: 'B2 is not blank' });

    // A line that broke is not waited for any more.
    const again = post(`${server.program}asked`, null);
    expect(await last).toBeNull();
    const added = post(`${server.page}add`, { name: 'Assumptions', rows: [['name', 'value']] });
    const third = (await again) as { readonly id: number };
    expect(third).toMatchObject({ do: 'add', with: ['Assumptions', [['name', 'value']]] });
    const further = post(`${server.program}asked`, { id: third.id, result: 'Assumptions 2' });
    expect(await added).toEqual({ result: 'Assumptions 2' });

    // Its formulas come in the writing of the pane.
    const all = post(`${server.page}formulas`, {});
    const fourth = (await further) as { readonly id: number };
    expect(fourth).toMatchObject({ do: 'formulas', with: [] });
    const cell = { sheet: 'Pins', address: 'C1', value: 4 };
    const found = [{ ...cell, formula: '=BURN.PIN.RODS({3.5|4};A1)' }];
    const more = post(`${server.program}asked`, { id: fourth.id, result: found });
    expect(await all).toEqual({ result: [{ ...cell, formula: '=BURN.PIN.RODS({3.5;4},A1)' }] });

    const cells = [{ address: 'B2', value: 0.5 }];
    const written = post(`${server.page}write`, { sheet: 'Set', cells });
    const fifth = (await more) as { readonly id: number };
    expect(fifth).toMatchObject({ do: 'write', with: ['Set', cells] });
    post(`${server.program}asked`, { id: fifth.id, problem: 'Set B2 is filled by a formula' }).catch(() => undefined);
    expect(await written).toEqual({ problem: 'Set B2 is filled by a formula' });
  });

  it('says why the selected cell failed, for the status bar', async () => {
    const cell = { sheet: 'Pins', address: 'A1', value: { error: '#VALUE!', message: '' } };
    const told = await post(`${server.program}selected`, { ...cell, formula: '=BURN.PIN.RODS("wide";12)' });
    expect(told).toEqual({ status: expect.stringMatching(/^diameter is "wide"/) as string });
    expect(await post(`${server.program}selected`, null)).toEqual({ status: '' });
  });
});
