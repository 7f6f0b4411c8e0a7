/// <reference types="office-js" />
import esbuild from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Card } from '../../src/addin/cards.ts';
import { metadata } from '../../src/addin/metadata.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { explain } from '../../src/sheet/explain.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { SpreadsheetHost, type Outcome } from './spreadsheet-host.ts';

async function bundle(cards: boolean): Promise<string> {
  const { outputFiles } = await esbuild.build({
    entryPoints: [new URL('../../src/addin/functions.ts', import.meta.url).pathname],
    bundle: true,
    minify: true,
    format: 'iife',
    write: false,
    define: { CARDS: String(cards) },
  });
  return outputFiles[0]?.text ?? '';
}

/** What a host's own script would say of the requirement sets it has; the runtime asks for others. */
const office = (sets: Readonly<Record<string, number>>): string =>
  `globalThis.Office = { onReady: () => new Promise(() => {}), context: { requirements: { isSetSupported: (name, version) => (${JSON.stringify(sets)}[name] ?? 99) >= Number(version) } } };`;
const NEW = office({ CustomFunctionsRuntime: 1.4, ExcelApi: 1.19 });

const CARD = [
  ['show working', 'card'],
  ['stub', 4],
];
const PLAIN = [['stub', 4]];
const oxygen = (assume: unknown, diameter: unknown = [[4]], length: unknown = [[10]]) => ({
  id: 'PIN.OXYGEN',
  args: [diameter, length, null, null, null, assume],
});
const cell = (outcome: Outcome | undefined, row = 0): unknown => (outcome as { value: unknown[][] }).value[row]?.[0];

describe('a result with its working on a card', () => {
  let withCards: string;
  let host: SpreadsheetHost;
  const hosts: SpreadsheetHost[] = [];
  const load = async (...scripts: readonly string[]): Promise<SpreadsheetHost> => {
    const host = await SpreadsheetHost.load(...scripts);
    hosts.push(host);
    return host;
  };
  beforeAll(async () => {
    withCards = await bundle(true);
    host = await load(NEW, withCards);
  });
  afterAll(() => hosts.forEach((h) => h.close()));

  it('is the same number, with every step and its formula', async () => {
    const [carded, plain] = await host.run([oxygen(CARD), oxygen(PLAIN)]);
    const card = cell(carded) as Card;
    expect(card.basicValue).toBe(cell(plain));
    const { steps } = explain(findFunction('BURN.PIN.OXYGEN')!, [
      4,
      10,
      undefined,
      undefined,
      undefined,
      [['stub', 4]],
    ]);
    const [working, formulas] = card.layouts.card.sections;
    expect(working?.properties.length).toBe(steps.length);
    expect(formulas).toMatchObject({ title: 'Formulas and sources', collapsible: true, collapsed: true });
    expect(card.properties['oxygen, scf [O]']).toEqual({
      type: 'Double',
      basicType: 'Double',
      basicValue: card.basicValue,
    });
    expect(card.properties['stub, in [stub]']).toEqual({
      type: 'Double',
      basicType: 'Double',
      basicValue: expect.closeTo(4, 9) as number,
    });
    expect(card.properties['stub =']).toMatchObject({ basicValue: expect.stringContaining('; your value') as string });
    expect(card.properties['O =']).toMatchObject({
      basicValue: 'oxygen while burning x (1 + idle share) + lightings x flow x lighting time; calculated; arithmetic',
    });
    for (const section of card.layouts.card.sections)
      for (const property of section.properties) expect(card.properties).toHaveProperty([property]);
  });

  it("is a value of the host's own kind", async () => {
    const card = cell((await host.run([oxygen(CARD)]))[0]) as Card;
    // The vendor's types say what the host takes.
    const value = {
      ...card,
      layouts: {
        card: {
          ...card.layouts.card,
          sections: card.layouts.card.sections.map((s) => ({ ...s, properties: [...s.properties] })),
        },
      },
    } satisfies Excel.DoubleCellValue;
    expect(value.type).toBe('Double');
  });

  it('is given only where it is asked for, and for numbers only', async () => {
    const [plain, steps, failed, assumed] = await host.run([
      oxygen(null),
      { id: 'PIN.STEPS', args: [[[4]], [[10]], null, null, null, CARD] },
      oxygen(CARD, [[4], [-4]], [[10], [10]]),
      { id: 'VERSION', args: [] },
    ]);
    expect(cell(plain)).toBeTypeOf('number');
    expect(cell(steps)).toBe('step');
    expect(cell(failed)).toMatchObject({ type: 'Double' });
    expect(cell(failed, 1)).toMatchObject({
      code: '#VALUE!',
      message: expect.stringContaining('diameter is -4 in') as string,
    });
    expect(cell(assumed)).toBeTypeOf('string');
  });

  it('belongs to its own row of a list; a long list has plain numbers', async () => {
    const column = (n: number, x: (i: number) => number): number[][] => Array.from({ length: n }, (_, i) => [x(i)]);
    const [few, many] = await host.run([
      oxygen(
        CARD,
        column(3, (i) => 3 + i),
        [[10]],
      ),
      oxygen(
        CARD,
        column(51, (i) => 3 + i / 50),
        [[10]],
      ),
    ]);
    expect([0, 1, 2].map((row) => (cell(few, row) as Card).properties['diameter, in [D]']?.basicValue)).toEqual(
      [3, 4, 5].map((d) => expect.closeTo(d, 9) as number),
    );
    expect(cell(many)).toBeTypeOf('number');
  });

  it('comes in SI where the rows ask for it', async () => {
    const card = cell(
      (
        await host.run([
          oxygen(
            [
              ['show working', 'card'],
              ['units', 'SI'],
            ],
            [[100]],
            [[250]],
          ),
        ])
      )[0],
    ) as Card;
    expect(card.properties['diameter, mm [D]']).toMatchObject({ basicValue: expect.closeTo(100, 9) as number });
    expect(card.properties['oxygen, m3 [O]']).toMatchObject({ basicValue: card.basicValue });
  });

  it('is a plain number in a host that has no cards, in one that does not tell, and in a build without them', async () => {
    const old = await load(office({ CustomFunctionsRuntime: 1.3, ExcelApi: 1.14 }), withCards);
    const between = await load(office({ CustomFunctionsRuntime: 1.4, ExcelApi: 1.16 }), withCards);
    const silent = await load(withCards);
    const without = await load(NEW, await bundle(false));
    const [card] = await host.run([oxygen(CARD)]);
    for (const each of [old, between, silent, without]) {
      const [outcome] = await each.run([oxygen(CARD)]);
      expect(cell(outcome)).toBe((cell(card) as Card).basicValue);
    }
  });

  it('sets the runtime no riddle', () => {
    for (const each of hosts) expect(each.warnings).toEqual([]);
  });
});

describe('functions.json', () => {
  it('asks for rich values only in a build with cards, and never for both kinds at once', () => {
    const flags = (cards: boolean): readonly string[] =>
      Object.keys(metadata(hostFunctions, 'https://example.test/reference', cards)).filter((k) => k !== 'functions');
    expect(flags(false)).toEqual(['allowErrorForDataTypeAny']);
    expect(flags(true)).toEqual(['allowCustomDataForDataTypeAny']);
  });
});
