import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { meanFlow } from '../../../src/core/burn/rod-line.ts';
import { RODS, findRod, rodMassPerLength, rodName } from '../../../src/core/burn/rods.ts';
import { rodPassages } from '../../../src/core/oxygen/rod-flow.ts';

const IN = 0.0254;

describe('the register of rods', () => {
  it('finds each by its name, with and without a length', () => {
    for (const rod of RODS) {
      expect(findRod(rod.name).rod).toBe(rod);
      for (const length of rod.lengths) {
        const found = findRod(rodName(rod, length, true));
        expect(found.rod).toBe(rod);
        expect(found.length).toBeCloseTo(length, 12);
        expect(found.coupled).toBe(true);
      }
    }
  });

  it.each([
    ['3/8 in x 3 ft', '3/8', 36],
    ['0.25', '1/4', undefined],
    ['3/8 insulated x 18', '3/8 insulated', 18],
    ['3/8 x 18 insulated', '3/8 insulated', 18],
    ['.375 insulated', '3/8 insulated', undefined],
    ['1/2 pipe x 10 ft', '1/2 pipe', 120],
    ['3/4 Pipe', '3/4 pipe', undefined],
    ['0.5 pipe', '1/2 pipe', undefined],
  ] as const)('reads "%s"', (text, name, length) => {
    const found = findRod(text);
    expect(found.rod.name).toBe(name);
    if (length === undefined) expect(found.length).toBeUndefined();
    else expect(found.length).toBeCloseTo(length * IN, 12);
  });

  it.each([['1/2'], ['3/16 insulated'], ['1 pipe'], ['3/8 x'], ['3/8 x 0'], ['pipe']])('does not know "%s" and names the nearest', (text) => {
    expect(() => findRod(text)).toThrow(/is not in the register; nearest: \S+/);
  });

  it('lists rods whose wires leave room for oxygen, lengths shortest first', () => {
    for (const rod of RODS) {
      expect(rodPassages(rod).area).toBeGreaterThan(0);
      expect([...rod.lengths].sort((x, y) => x - y)).toEqual(rod.lengths);
    }
  });

  it('counts an insulated rod\'s steel and flow as a bare one\'s', () => {
    expect(rodMassPerLength(findRod('3/8 insulated').rod)).toBe(rodMassPerLength(findRod('3/8').rod));
  });
});

describe('a flow you measured', () => {
  it('counts for the kind of rod in use: 36 in of a rod, the longest of a bar', () => {
    const with8: Override[] = [{ name: 'rod flow measured', value: (8 * 0.0375521) / 60, low: 0, high: 1, kind: 'your value' }];
    for (const [name, length] of [['3/8', 36], ['3/8 pipe', 120]] as const) {
      const { rod } = findRod(name);
      const free = meanFlow(rod, length * IN, 80 * 6894.757, new Basis(Assumptions.defaults()));
      const fitted = meanFlow(rod, length * IN, 80 * 6894.757, new Basis(Assumptions.from(with8)));
      // A fresh rod gives the measured flow, the mean over its burned length somewhat more.
      expect(fitted * 60 / 0.0375521).toBeGreaterThan(8);
      expect(fitted / free).toBeGreaterThan(0.4);
    }
  });
});
