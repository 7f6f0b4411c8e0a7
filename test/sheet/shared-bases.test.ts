import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { Assumptions } from '../../src/core/assumptions/assumptions.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { SharedBases } from '../../src/sheet/shared-bases.ts';

/** Calls of several operations and assumptions, as the cells of a workbook make them. */
const CALLS: readonly (readonly [string, readonly Argument[]])[] = [
  ['BURN.PIN.PLAN', [4, 10]],
  ['BURN.PIN.PLAN', [4, 10.5, undefined, '3/8 x 36']],
  ['BURN.PIN.PLAN', [4, 10, undefined, undefined, undefined, [['burning duty', 0.5]]]],
  ['BURN.HOLE.PLAN', [1.5, 6, undefined, 'stainless steel']],
  ['BURN.HOLE.PLAN', [1.5, 6, undefined, 'stainless steel', [['units', 'SI']]]],
  ['BURN.CUT.PLAN', [2, 24]],
  ['BURN.STUD.PLAN', [2, 8, undefined, 'copper alloy']],
  ['BURN.GOUGE.PLAN', [0.75, 0.5, 24, undefined, undefined, [['position', 'overhead']]]],
  ['BURN.BREACH.PLAN', [24, 2.5, 3, '1/2 pipe']],
  ['BURN.PIN.PLAN', [4, 400]],
  ['BURN.COOL.TIME', [5, 3, 16, 'air']],
  ['BURN.COOL.TIME', [5, 3, 16, 'water']],
  [
    'BURN.SPREAD',
    [
      'CUT',
      [
        [2, 24],
        [3, 12],
      ],
      'oxygen',
      80,
    ],
  ],
  [
    'BURN.JOB.STOCK',
    [
      [
        [4, 10],
        [4, 10],
        [3, 8],
      ],
      90,
    ],
  ],
];

describe('what calls share', () => {
  it('changes no result, whichever cells came before', () => {
    const run = ([name, args]: (typeof CALLS)[number], shared?: SharedBases): unknown =>
      call(findFunction(name)!, args, undefined, shared);
    const alone = CALLS.map((c) => run(c));
    const forward = new SharedBases();
    expect(CALLS.map((c) => run(c, forward))).toEqual(alone);
    expect(CALLS.map((c) => run(c, forward))).toEqual(alone);
    const backward = new SharedBases();
    expect(
      [...CALLS]
        .reverse()
        .map((c) => run(c, backward))
        .reverse(),
    ).toEqual(alone);
  });

  it('is one basis for the same assumptions, and another for others or for the defaults of another version', () => {
    const shared = new SharedBases();
    const plain = shared.of(undefined);
    expect(shared.of(undefined)).toBe(plain);
    const rows = [['stub', 4]];
    expect(shared.of(rows)).not.toBe(plain);
    expect(shared.of([['stub', 4]])).toBe(shared.of(rows));
    expect(shared.of([['stub', '4']])).not.toBe(shared.of(rows));
    const error = (message: string) => [['stub', 4, { error: '#N/A', message }]];
    expect(shared.of(error('one'))).toBe(shared.of(error('one')));
    expect(shared.of(error('two'))).not.toBe(shared.of(error('one')));
    rows[0]![1] = 6;
    expect(shared.of(rows).a.value('stub')).toBeCloseTo(6 * 0.0254, 12);
    expect(shared.of([['stub', 5]]).a.value('stub')).toBeCloseTo(5 * 0.0254, 12);
    expect(shared.of(undefined, Assumptions.fromRegistry(undefined, '1999.1.1')).a.version).toBe('1999.1.1');
  });

  it('lets go of the assumptions least lately used and of what a long list leaves behind', () => {
    const shared = new SharedBases();
    const first = shared.of([['stub', 2]]);
    for (let i = 0; i < 7; i++) shared.of([['stub', 3 + i / 10]]);
    expect(shared.of([['stub', 2]])).toBe(first);
    for (let i = 0; i < 8; i++) shared.of([['stub', 3 + i / 10]]);
    expect(shared.of([['stub', 2]])).not.toBe(first);
    const long = shared.of(undefined);
    for (let i = 0; i <= 30_000; i++) long.once(`a value ${i}`, () => i);
    shared.tidy();
    expect(shared.of(undefined)).not.toBe(long);
  });
});
