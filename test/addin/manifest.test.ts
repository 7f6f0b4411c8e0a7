import { readFileSync } from 'node:fs';
import { JSDOM } from 'jsdom';
import { describe, expect, it } from 'vitest';
import { NAMESPACE } from '../../src/addin/function-id.ts';

const root = new URL('../../', import.meta.url);
const xml = readFileSync(new URL('manifest.xml', root), 'utf8');
const manifest = new JSDOM(xml, { contentType: 'application/xml' }).window.document;
const all = (selector: string): readonly Element[] => [...manifest.querySelectorAll(selector)];
const attribute = (selector: string, name: string): readonly string[] =>
  all(selector).flatMap((e) => e.getAttribute(name) ?? []);
const tagged = (name: string): readonly Element[] => [...manifest.getElementsByTagName(name)];
const resource = (id: string): string => all(`Resources [id="${id}"]`)[0]?.getAttribute('DefaultValue') ?? '';
const addresses = [...xml.matchAll(/"(\w+:\/\/[^"]+)"/g)]
  .map((m) => m[1] ?? '')
  .filter((a) => !/schemas\.microsoft\.com|www\.w3\.org/.test(a));

/** Width and height from the header of a PNG file (ISO/IEC 15948, clause 11.2.2). */
function pngSize(file: string): readonly [number, number] {
  const bytes = readFileSync(new URL(file, root));
  expect(bytes.subarray(1, 4).toString('latin1')).toBe('PNG');
  return [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
}

describe('the manifest, beyond what its schemas check', () => {
  it('is an identity of its own', () => {
    expect(tagged('Id')[0]?.textContent).toMatch(
      /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/,
    );
    expect(attribute('DisplayName', 'DefaultValue')).toEqual(['Rodsheet']);
  });

  it('resolves every resource it refers to, and refers to every one it has', () => {
    const used = new Set(attribute('*', 'resid'));
    const given = new Set(attribute('Resources *', 'id'));
    expect([...used].sort()).toEqual([...given].sort());
  });

  it('refers to texts, addresses and images where they belong', () => {
    const parentOf = (resid: string): string => all(`Resources [id="${resid}"]`)[0]?.parentElement?.localName ?? '';
    const parents = (selector: string): readonly string[] => [...new Set(attribute(selector, 'resid').map(parentOf))];
    expect(parents('SourceLocation, Runtime, FunctionFile, LearnMoreUrl')).toEqual(['Urls']);
    expect(parents('Label, Title, Namespace')).toEqual(['ShortStrings']);
    expect(parents('Supertip > Description, GetStarted > Description')).toEqual(['LongStrings']);
    expect(parents('Icon > *')).toEqual(['Images']);
  });

  it('uses no id twice, nor one longer than 32 characters', () => {
    const ids = attribute('*', 'id').filter((id) => id !== 'TabHome');
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id.length).toBeLessThanOrEqual(32);
  });

  it('uses secure addresses of one origin only', () => {
    expect(addresses.length).toBeGreaterThan(8);
    for (const address of addresses) expect(address).toMatch(/^https:\/\/localhost:3000\//);
  });

  it('runs pane, functions and button in one runtime: they all name the same page', () => {
    const pages = ['Runtime', 'Page > SourceLocation', 'FunctionFile', 'Action > SourceLocation'].flatMap((s) =>
      attribute(s, 'resid'),
    );
    expect(new Set(pages)).toEqual(new Set(['Taskpane.Url']));
    expect(attribute('DefaultSettings > SourceLocation', 'DefaultValue')).toEqual([resource('Taskpane.Url')]);
  });

  it('points at files that the build writes', () => {
    const files = addresses.map((a) => new URL(a).pathname.slice(1)).filter((f) => !f.startsWith('assets/'));
    expect([...new Set(files)].sort()).toEqual(['functions.js', 'functions.json', 'pane.html', 'reference/index.html']);
  });

  it('has icons of the sizes it claims, in files of exactly that size', () => {
    const icons = all('Icon').map((icon) =>
      [...icon.children].map((i) => [i.getAttribute('size'), resource(i.getAttribute('resid') ?? '')]),
    );
    expect(icons.length).toBe(2);
    for (const sizes of icons) expect(sizes.map(([size]) => size)).toEqual(['16', '32', '80']);
    const claimed = icons.flat().map(([size, address]) => [Number(size), address ?? ''] as const);
    claimed.push(
      [32, attribute('IconUrl', 'DefaultValue')[0] ?? ''],
      [64, attribute('HighResolutionIconUrl', 'DefaultValue')[0] ?? ''],
    );
    for (const [size, address] of claimed) expect(pngSize(new URL(address).pathname.slice(1))).toEqual([size, size]);
  });

  it('keeps its texts within what the host shows', () => {
    const texts = (list: string): readonly string[] => attribute(`${list} > *`, 'DefaultValue');
    for (const text of [...texts('ShortStrings'), ...attribute('DisplayName', 'DefaultValue')])
      expect(text.length).toBeLessThanOrEqual(125);
    for (const text of [...texts('LongStrings'), ...attribute('OfficeApp > Description', 'DefaultValue')])
      expect(text.length).toBeLessThanOrEqual(250);
  });

  it('names the namespace of the functions, a legal one', () => {
    expect(resource('Functions.Namespace')).toBe(NAMESPACE);
    expect(NAMESPACE).toMatch(/^[A-Z][A-Z0-9.]{2,31}$/);
  });

  it('has one button, on the Home tab, that opens the pane', () => {
    expect(all('Control').map((c) => c.getAttribute('xsi:type'))).toEqual(['Button']);
    expect(all('Action').map((a) => a.getAttribute('xsi:type'))).toEqual(['ShowTaskpane']);
    expect(attribute('OfficeTab', 'id')).toEqual(['TabHome']);
  });

  it('asks for the permission the pane needs and the requirement sets that functions and pane need', () => {
    expect(tagged('Permissions').map((e) => e.textContent)).toEqual(['ReadWriteDocument']);
    const sets = all('Requirements Set').map(
      (s) => `${s.getAttribute('Name') ?? ''} ${s.getAttribute('MinVersion') ?? ''}`,
    );
    expect(sets).toEqual(['SharedRuntime 1.1', 'CustomFunctionsRuntime 1.3', 'ExcelApi 1.12']);
  });
});
