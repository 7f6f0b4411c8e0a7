/** The questions of the program on the pipe and their answers. */
import { describe, expect, it } from 'vitest';
import { Answers } from '../../src/libreoffice/process/answers.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';

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

const failed = { error: '#VALUE!', message: '' };

describe('the process', () => {
  it('answers a call at once, with blanks and errors in their places', () => {
    const { said, ask } = pipe();
    ask({ call: 'BURN.PIN.RODS', arguments: [[[3.5], [null], [3.5]], [[12], [null], ['x']], null] });
    expect(said).toEqual([
      { rows: [[6], [null], [{ error: '#VALUE!', message: expect.stringMatching(/^length is "x"/) as string }]] },
    ]);
  });

  it('answers a call of a function that it does not have with an error', () => {
    const { said, ask } = pipe();
    ask({ call: 'BURN.PIN.NONE', arguments: [] });
    expect(said).toEqual([{ rows: [[{ error: '#NAME?', message: '' }]] }]);
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
});
