import { describe, expect, it } from 'vitest';
import { customFunctionsShim } from '../../src/engine/custom-functions-shim.ts';
import type { CustomFunctionsShim } from '../../src/engine/custom-functions-shim.ts';
import type { Argument } from '../../src/sheet/host-function.ts';

type Runtime = CustomFunctionsShim['runtime'];

/** One function `BURN.F` with a required and an optional parameter, made with the runtime as a bundle would. */
function loaded(make: (runtime: Runtime) => (...args: unknown[]) => unknown) {
  const shim = customFunctionsShim();
  shim.runtime.associate({ F: make(shim.runtime) });
  const parameters = [
    { name: 'size', description: 'inch' },
    { name: 'rod', description: 'name', optional: true },
  ];
  const [f] = shim.functions({ functions: [{ id: 'F', name: 'F', description: 'does it', parameters }] }, 'BURN');
  if (!f) throw new Error('no function');
  return f;
}

describe('the stand-in for the custom-functions runtime', () => {
  it('describes a function as functions.json does', () => {
    expect(loaded(() => () => 1)).toMatchObject({
      name: 'BURN.F',
      summary: 'does it',
      parameters: [
        { name: 'size', optional: false },
        { name: 'rod', summary: 'name', optional: true },
      ],
    });
  });
  it('hands over cells as matrices, blanks as empty texts, what is left out as null, and one object more', () => {
    let came: unknown[] = [];
    const f = loaded(() => (...args) => {
      came = args;
      return 1;
    });
    f.call([3.5]);
    expect(came).toEqual([[[3.5]], null, { functionName: 'BURN.F' }]);
    f.call([
      [
        [1, null],
        [true, 'x'],
      ],
      'a',
    ]);
    expect(came.slice(0, 2)).toEqual([
      [
        [1, ''],
        [true, 'x'],
      ],
      [['a']],
    ]);
  });
  it('hands over an error as an object with its code and text', () => {
    const f = loaded(() => (size) => {
      const [[error]] = size as [[{ code: string; message: string }]];
      return `${error.code} ${error.message}`;
    });
    expect(f.call([{ error: '#N/A', message: 'no such rod' }] as Argument[])).toEqual([['#N/A no such rod']]);
  });
  it('gives single values, matrices, and errors returned or thrown', () => {
    expect(loaded(() => () => 2).call([1])).toEqual([[2]]);
    expect(
      loaded((r) => () => [
        [1, 'a'],
        [new r.Error(r.ErrorCode.notAvailable, 'none'), ''],
      ]).call([1]),
    ).toEqual([
      [1, 'a'],
      [{ error: '#N/A', message: 'none' }, ''],
    ]);
    expect(
      loaded((r) => () => {
        throw new r.Error(r.ErrorCode.invalidValue, 'too long');
      }).call([1]),
    ).toEqual([[{ error: '#VALUE!', message: 'too long' }]]);
  });
  it('makes any other throw an error of the cell', () => {
    expect(
      loaded(() => () => {
        throw new RangeError('oops');
      }).call([1]),
    ).toEqual([[{ error: '#VALUE!', message: expect.stringContaining('oops') as string }]]);
  });
  it('refuses an id associated twice, with nothing, undescribed, or described only', () => {
    const shim = customFunctionsShim();
    shim.runtime.associate('A', () => 1);
    expect(() => shim.runtime.associate('A', () => 1)).toThrow('A is associated twice');
    expect(() => shim.runtime.associate('B')).toThrow('B is associated with nothing');
    expect(() => shim.functions({ functions: [] }, 'BURN')).toThrow('A is not in functions.json');
    const described = ['A', 'C'].map((id) => ({ id, name: id, description: '', parameters: [] }));
    expect(() => shim.functions({ functions: described }, 'BURN')).toThrow(
      'C is in functions.json and associated with nothing',
    );
  });
});
