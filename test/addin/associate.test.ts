import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bundle } from './bundle.ts';
import { INVALID_VALUE, NOT_AVAILABLE, SpreadsheetHost, errorArgument } from './spreadsheet-host.ts';

/** The functions of fake-functions.ts in place of the catalogue's. */
const FAKES =
  "import { hostFunctions } from './fake-functions.ts'; import { associate } from '../../src/addin/associate.ts'; associate(hostFunctions);";

describe('functions joined to the host', () => {
  let host: SpreadsheetHost;
  beforeAll(async () => {
    host = await SpreadsheetHost.load(await bundle(FAKES));
  });
  afterAll(() => host.close());

  const arrived = async (...args: readonly unknown[]): Promise<unknown> => {
    const [outcome] = await host.run([{ id: 'ARGUMENTS', args }]);
    return (outcome as { value: unknown }).value;
  };
  const halves = async (...rows: readonly unknown[][]): Promise<unknown> =>
    (await host.run([{ id: 'ROW.HALVES', args: [rows] }]))[0];

  it('are known by their names inside the namespace, each once', () => {
    expect(host.ids).toEqual(['ARGUMENTS', 'ROW.HALVES', 'ROW.ZEROS', 'ROW.COUNT']);
    expect(host.warnings).toEqual([]);
  });

  it('get a cell as a range of one, a range row by row, and nothing for an argument left out', async () => {
    expect(
      await arrived(
        [[3.5]],
        [
          [1, 'a'],
          [true, 2],
        ],
        null,
      ),
    ).toEqual([['[[[3.5]],[[1,"a"],[true,2]],null]'], ['object object undefined']]);
  });

  it('get a plain value as well, as a host without ranges would send it', async () => {
    expect(await arrived(3.5, 'x', false)).toEqual([['[3.5,"x",false]'], ['number string boolean']]);
  });

  it('never see the object that the host adds after the declared arguments', async () => {
    expect(await arrived([[1]], null, null)).toEqual([['[[[1]],null,null]'], ['object undefined undefined']]);
  });

  it('get a blank cell as null, whether the host sends null or an empty text, and a 0 as 0', async () => {
    expect(await arrived([[null], [''], [0]], null, null)).toEqual([
      ['[[[null],[null],[0]],null,null]'],
      ['object undefined undefined'],
    ]);
  });

  it('get a 0 of a referenced cell as blank where a 0 cannot be meant, and a typed 0 as 0', async () => {
    const zeros = async (address: string): Promise<unknown> =>
      (await host.run([{ id: 'ROW.ZEROS', args: [[[0], [4]]], addresses: [address] }]))[0];
    expect(await zeros('Sheet1!A5:A6')).toEqual({ value: [['[[null],[4]]']] });
    expect(await zeros('')).toEqual({ value: [['[[0],[4]]']] });
  });

  it('get an error value by its code', async () => {
    expect(await arrived([[1], [errorArgument('#DIV/0!')]], null, null)).toEqual([
      ['[[[1],[{"error":"#DIV/0!","message":""}]],null,null]'],
      ['object undefined undefined'],
    ]);
  });

  it('spill a range, with an empty text for a blank since the host shows null as 0', async () => {
    expect(await halves([4, null], [6, 8])).toEqual({
      value: [
        [2, ''],
        [3, 4],
      ],
    });
  });

  it('hand a lone error over with its code and message', async () => {
    const [negative, unknown, count] = await host.run([
      { id: 'ROW.HALVES', args: [[[-1]]] },
      { id: 'ROW.HALVES', args: [[['x']]] },
      { id: 'ROW.COUNT', args: [[[1], [2]]] },
    ]);
    expect(negative).toEqual({ failure: INVALID_VALUE, message: '-1 is negative' });
    expect(unknown).toEqual({ failure: NOT_AVAILABLE, message: '"x" is unknown' });
    expect(count).toEqual({ value: [[2]] });
  });

  it('keep the other rows where one fails, and the message with the row', async () => {
    const { value } = (await halves([2], [-1], ['x'], [6])) as { value: readonly unknown[][] };
    expect(value[0]).toEqual([1]);
    expect(value[1]).toEqual([expect.objectContaining({ code: '#VALUE!', type: 'Error', message: '-1 is negative' })]);
    expect(value[2]).toEqual([expect.objectContaining({ code: '#N/A', type: 'Error', message: '"x" is unknown' })]);
    expect(value[3]).toEqual([3]);
  });

  it('show any other error as #VALUE!, since the host drops the message of the rest', async () => {
    const { value } = (await halves([2], [errorArgument('#DIV/0!')])) as { value: readonly unknown[][] };
    expect(value[1]).toEqual([expect.objectContaining({ code: '#VALUE!', message: 'came in as #DIV/0!' })]);
  });

  it('call the runtime without a warning', () => {
    expect(host.warnings).toEqual([]);
  });

  it('stay in the bundle: the package does not call itself free of side effects, which would drop them', () => {
    expect(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')).not.toContain('"sideEffects"');
  });
});
