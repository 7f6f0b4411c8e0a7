import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { meanFlow, rodLine } from '../../../src/core/burn/rod-line.ts';
import { RODS, findRod, rodMassPerLength, rodName, rodNames } from '../../../src/core/burn/rods.ts';
import { ambientPressure } from '../../../src/core/oxygen/ambient-pressure.ts';
import { flowingOxygen } from '../../../src/core/oxygen/flowing-gas.ts';
import { rodFlow, rodPassages } from '../../../src/core/oxygen/rod-flow.ts';

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
    ['0.375 pipe', '3/8 pipe', undefined],
    ['0.386', '3/8', undefined],
    ['  3/8 x 393  ', '3/8', 393],
    ['3/8 Insulated ', '3/8 insulated', undefined],
  ] as const)('reads "%s"', (text, name, length) => {
    const found = findRod(text);
    expect(found.rod.name).toBe(name);
    if (length === undefined) expect(found.length).toBeUndefined();
    else expect(found.length).toBeCloseTo(length * IN, 12);
  });

  it('takes rods as coupled where their name ends so', () => {
    expect(['3/8 coupled', ' 3/8  x 36 COUPLED ', '3/8'].map((text) => findRod(text).coupled)).toEqual([
      true,
      true,
      false,
    ]);
  });

  it.each([
    ['1/2'],
    ['3/16 insulated'],
    ['1 pipe'],
    ['3/8 x'],
    ['3/8 x 0'],
    ['pipe'],
    ['0.388'],
    ['0.54'],
    ['3/8 x 394'],
    ['3/8 x ft'],
  ])('does not know "%s" and names the nearest', (text) => {
    expect(() => findRod(text)).toThrow(/is not in the register; nearest: \S+/);
    expect(() => findRod(text)).not.toThrow(/coupled/);
  });

  it('lists rods whose wires leave room for oxygen, lengths shortest first', () => {
    for (const rod of RODS) {
      expect(rodPassages(rod).area).toBeGreaterThan(0);
      expect([...rod.lengths].sort((x, y) => x - y)).toEqual(rod.lengths);
    }
  });

  it('has a cover on those rods only that are called insulated', () => {
    expect(RODS.filter((rod) => rod.insulated).map((rod) => rod.name)).toEqual(
      RODS.map((rod) => rod.name).filter((name) => name.includes('insulated')),
    );
    expect(RODS.some((rod) => rod.insulated)).toBe(true);
  });

  it('gives bars assumptions of their own', () => {
    expect(Object.values(rodNames(findRod('3/8').rod)).some((name) => name.startsWith('bar'))).toBe(false);
    expect(Object.values(rodNames(findRod('3/8 pipe').rod)).every((name) => name.startsWith('bar'))).toBe(true);
  });

  it("counts an insulated rod's steel and flow as a bare one's", () => {
    expect(rodMassPerLength(findRod('3/8 insulated').rod)).toBe(rodMassPerLength(findRod('3/8').rod));
  });
});

describe('a flow you measured', () => {
  it('counts for the kind of rod in use: 36 in of a rod, the longest of a bar', () => {
    const with8: Override[] = [
      { name: 'rod flow measured', value: (8 * 0.0375521) / 60, low: 0, high: 1, kind: 'your value' },
    ];
    for (const [name, length] of [
      ['3/8', 36],
      ['3/8 pipe', 120],
    ] as const) {
      const { rod } = findRod(name);
      const free = meanFlow(rod, length * IN, 80 * 6894.757, new Basis(Assumptions.defaults()));
      const fitted = meanFlow(rod, length * IN, 80 * 6894.757, new Basis(Assumptions.from(with8)));
      // A fresh rod gives the measured flow, the mean over its burned length somewhat more.
      expect((fitted * 60) / 0.0375521).toBeGreaterThan(8);
      expect(fitted / free).toBeGreaterThan(0.4);
    }
  });

  it('is what the rod passes at the pressure it was measured at', () => {
    const measured = (8 * 0.0375521) / 60;
    const basis = new Basis(
      Assumptions.from([{ name: 'rod flow measured', value: measured, low: 0, high: 1, kind: 'your value' }]),
    );
    const at = basis.a.value('pressure');
    for (const [name, length] of [
      ['3/8', 36],
      ['3/8 pipe', 120],
    ] as const) {
      expect(rodFlow(rodLine(findRod(name).rod, at, basis), ambientPressure(basis.a) + at, length * IN)).toBeCloseTo(
        measured,
        9,
      );
    }
  });

  it('leaves the line as it is where there is none, its gas at the mean of holder and surroundings', () => {
    const basis = new Basis(Assumptions.defaults());
    const line = rodLine(findRod('3/8').rod, 6e5, basis);
    expect(line.scale).toBeUndefined();
    expect(line.gas).toEqual(flowingOxygen(basis.a.value('gas temperature'), ambientPressure(basis.a) + 3e5));
  });
});

describe('the flow factor', () => {
  it('multiplies the mean flow', () => {
    const { rod } = findRod('3/8');
    const twice = new Basis(Assumptions.from([{ name: 'flow factor', value: 2, low: 2, high: 2, kind: 'your value' }]));
    const once = new Basis(Assumptions.from([{ name: 'flow factor', value: 1, low: 1, high: 1, kind: 'your value' }]));
    const mean = meanFlow(rod, 36 * IN, 5e5, once);
    expect(meanFlow(rod, 36 * IN, 5e5, twice) / mean).toBeCloseTo(2, 12);
    // The mean over the burned length lies between the flow of a fresh rod and of its stub.
    const at = (inches: number): number => rodFlow(rodLine(rod, 5e5, once), ambientPressure(once.a) + 5e5, inches * IN);
    expect(mean).toBeGreaterThan(at(36));
    expect(mean).toBeLessThan(at(3));
  });
});
