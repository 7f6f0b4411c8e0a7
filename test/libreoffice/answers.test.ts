/** The questions of the program on the pipe and their answers. */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isCellError, type Cell } from '../../src/catalogue/cell.ts';
import { Answers } from '../../src/libreoffice/process/answers.ts';
import { packedRows } from '../../src/libreoffice/process/packed-rows.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';

const ROOT = new URL('../..', import.meta.url).pathname;

function pipe(): {
  readonly said: unknown[];
  readonly ask: (question: object) => void;
  readonly settled: () => Promise<void>;
} {
  const said: unknown[] = [];
  const answers = new Answers(hostFunctions, '', (line) => said.push(JSON.parse(line)));
  return {
    said,
    ask: (question) => answers.take(JSON.stringify(question)),
    settled: () => new Promise((resolve) => setTimeout(resolve, 20)),
  };
}

/** The rows of a packed answer, taken apart by the program's own Python. */
function unpacked(head: unknown, bytes: Uint8Array): unknown {
  const code = [
    'import json, math, struct, sys',
    'sys.path.insert(0, "src/libreoffice/python/pythonpath")',
    'from rodsheet_values import error_name, packed_size, rows_for_program',
    'answer = json.loads(sys.stdin.buffer.readline())',
    'answer["bytes"] = sys.stdin.buffer.read()',
    'assert len(answer["bytes"]) == packed_size(answer)',
    'named = lambda c: {"error": error_name(struct.unpack("<II", struct.pack("<d", c))[0])} if isinstance(c, float) and math.isnan(c) else c',
    'print(json.dumps([[named(c) for c in row] for row in rows_for_program(answer)]))',
  ].join('\n');
  const input = Buffer.concat([Buffer.from(`${JSON.stringify(head)}\n`), bytes]);
  return JSON.parse(execFileSync('python3', ['-c', code], { input, cwd: ROOT, maxBuffer: 1e9 }).toString());
}

const failed = { error: '#VALUE!', message: '' };

describe.skipIf(!existsSync('/usr/bin/python3'))('a long result', () => {
  it('comes as it is through the packing: numbers, texts, truths, blanks and errors, each in its place', () => {
    const cells: readonly Cell[] = [
      0.1,
      -0,
      1e308,
      'é, "x"\n',
      '',
      null,
      true,
      false,
      failed,
      { error: '#N/A', message: 'x' },
    ];
    const rows = Array.from({ length: 300 }, (_, r) =>
      Array.from({ length: 7 }, (__, c) => cells[(r * 3 + c) % 10] as Cell),
    );
    const { head, bytes } = packedRows(rows);
    const wanted = rows.map((row) => row.map((cell) => (isCellError(cell) ? { error: cell.error } : (cell ?? ''))));
    expect(unpacked(head, bytes)).toEqual(wanted.map((row) => row.map((cell) => (Object.is(cell, -0) ? 0 : cell))));
  });

  it('of a plan is what the function gives', () => {
    const diameters = Array.from({ length: 100 }, (_, i) => [i === 50 ? 'wide' : 2 + i / 50]);
    const said: { head: unknown; bytes: Uint8Array | undefined }[] = [];
    const answers = new Answers(hostFunctions, '', (line, bytes) => said.push({ head: JSON.parse(line), bytes }));
    answers.take(JSON.stringify({ call: 'BURN.PIN.PLAN', arguments: [diameters, [[10]]] }));
    const plan = hostFunctions.find((f) => f.name === 'BURN.PIN.PLAN')!.call([diameters, [[10]]]);
    expect(unpacked(said[0]!.head, said[0]!.bytes!)).toEqual(
      plan.map((row) => row.map((cell) => (isCellError(cell) ? { error: cell.error } : (cell ?? '')))),
    );
  });
});

describe('the process', () => {
  it('answers a call at once, with blanks and errors in their places', () => {
    const { said, ask } = pipe();
    ask({ call: 'BURN.PIN.RODS', arguments: [[[3.5], [null], [3.5]], [[12], [null], ['x']], null] });
    expect(said).toEqual([{ rows: [[6], [''], ['']], errors: [[2, 0, '#VALUE!']] }]);
  });

  it('answers a call of a function that it does not have with an error', () => {
    const { said, ask } = pipe();
    ask({ call: 'BURN.PIN.NONE', arguments: [] });
    expect(said).toEqual([{ rows: [['']], errors: [[0, 0, '#NAME?']] }]);
  });

  it('asks for the cells of a reason one reference after the other, and answers calls in between', async () => {
    const { said, ask, settled } = pipe();
    const spill = { from: 'C1', formula: '=BURN.PIN.RODS(A1:A2;B1:B2)', row: 1, column: 0 };
    ask({ why: { sheet: 'Pins', address: 'C2', formula: '', value: failed, spill } });
    await settled();
    expect(said.splice(0)).toEqual([{ read: ['A1:A2', 'Pins', 'C1'] }]);
    ask({ call: 'BURN.VERSION', arguments: [] });
    expect(said.splice(0)).toHaveLength(1);
    ask({ cells: [[3.5], ['wide']] });
    await settled();
    expect(said.splice(0)).toEqual([{ read: ['B1:B2', 'Pins', 'C1'] }]);
    ask({ cells: [[12], [12]] });
    await settled();
    expect(said).toEqual([{ text: expect.stringMatching(/^diameter is "wide"/) as string }]);
  });

  it.each([
    ['that could not be read', { problem: 'there is no sheet X' }, /there is no sheet X/],
    ['that holds an error', { cells: [[failed]] }, /^X!A1 holds an error, and LibreOffice hands no such cells/],
  ])('gives as the reason an argument %s', async (_, answer, reason) => {
    const { said, ask, settled } = pipe();
    ask({ why: { sheet: 'Pins', address: 'C2', formula: '=BURN.PIN.RODS(X!A1;12)', value: failed } });
    await settled();
    ask(answer);
    await settled();
    expect(said.at(-1)).toEqual({ text: expect.stringMatching(reason) as string });
  });

  it('has no reason for a cell that did not fail, and says of another error that it is not ours', async () => {
    const { said, ask, settled } = pipe();
    ask({ why: { sheet: 'Pins', address: 'C2', formula: '=BURN.PIN.RODS(3.5;12)', value: 6 } });
    ask({ why: { sheet: 'Pins', address: 'C2', formula: '=1/0', value: { error: '#DIV/0!', message: '' } } });
    await settled();
    expect(said).toEqual([{ text: '' }, { text: '' }]);
  });

  it('gives the reason of a formula that stands in no cell: of the first item that fails, of no other program', async () => {
    const { said, ask, settled } = pipe();
    for (const formula of ['=BURN.PIN.RODS({3.5|"wide"};12)', '=BURN.PIN.RODS(3.5;12)', '=1/0']) {
      ask({ why: { sheet: 'Pins', address: 'C2', formula, value: null }, written: true });
      await settled();
    }
    expect(said).toEqual([
      { text: expect.stringMatching(/^diameter is "wide"/) as string },
      { text: '' },
      { text: 'The formula calls no BURN function.' },
    ]);
  });
});
