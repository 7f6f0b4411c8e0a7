import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import type { NumberName } from '../../../src/core/assumptions/registry.ts';
import { Basis } from '../../../src/core/basis.ts';
import { findMaterial } from '../../../src/core/burn/materials.ts';
import { meanFlow } from '../../../src/core/burn/rod-line.ts';
import { findRod } from '../../../src/core/burn/rods.ts';
import { burnFume } from '../../../src/core/safety/burn-fume.ts';
import type { FumeRelease } from '../../../src/core/safety/fume-release.ts';
import { substance } from '../burn/substance.ts';

const INCH = 0.0254;
const basis = new Basis(Assumptions.defaults());
const number = (name: NumberName, value: number): Override => ({
  name,
  value,
  low: value,
  high: value,
  kind: 'your value',
});
const withRows = (...rows: readonly Override[]): Basis => new Basis(Assumptions.from(rows));
function fume(rod: string, material: string, on = basis): FumeRelease {
  const { evaluation } = burnFume(findRod(rod), findMaterial(material), on);
  return { fume: evaluation.number('F'), ironOxide: evaluation.number('G_Fe'), manganese: evaluation.number('G_Mn') };
}

describe('fume of a rod at work', () => {
  it('is the assumed share of the iron that the flow feeds and removes', () => {
    const { rod } = findRod('3/8');
    const { fed, removed } = substance('carbon steel');
    const flow = meanFlow(rod, 36 * INCH, basis.a.value('fume tip pressure'), basis);
    expect(fume('3/8', 'carbon steel').fume / (basis.a.value('fume factor') * flow * (fed + removed()))).toBeCloseTo(
      1,
      12,
    );
  });

  it('is that of the metal removed overhead or wherever the work is', () => {
    const overhead = withRows({ name: 'position', word: 'overhead' });
    const { fed, removed } = substance('carbon steel');
    const removal = overhead.a.value('overhead removal');
    expect(removal).not.toBe(1);
    const ratio = (fed + removed() * removal) / (fed + removed());
    expect(fume('3/8', 'carbon steel', overhead).fume / fume('3/8', 'carbon steel').fume).toBeCloseTo(ratio, 12);
  });

  it('of copper, aluminium, concrete and rock is that of the rod alone', () => {
    const flow = meanFlow(findRod('3/8').rod, 36 * INCH, basis.a.value('fume tip pressure'), basis);
    for (const material of ['copper', 'aluminium', 'concrete', 'rock']) {
      expect(
        fume('3/8', material).fume / (basis.a.value('fume factor') * flow * basis.a.value('rod feed ratio')),
        material,
      ).toBeCloseTo(1, 12);
    }
  });

  it('is taken for a rod of 36 in, or the shortest of a long bar, where no length is given', () => {
    expect(fume('3/8', 'carbon steel')).toEqual(fume('3/8 x 36', 'carbon steel'));
    expect(fume('3/8 pipe', 'carbon steel')).toEqual(fume('3/8 pipe x 60', 'carbon steel'));
    expect(fume('3/8 x 18', 'carbon steel').fume).toBeGreaterThan(fume('3/8 x 36', 'carbon steel').fume);
    expect(() => fume('3/8 x 1', 'carbon steel')).toThrow("stub is 3 in; must be less than the rod's 1 in");
    expect(() => fume('3/8 x 3', 'carbon steel')).toThrow("stub is 3 in; must be less than the rod's 3 in");
  });

  it('follows the tip pressure that is set', () => {
    const set = withRows(number('tip pressure', 2 * basis.a.value('fume tip pressure')));
    expect(fume('3/8', 'carbon steel', set).fume).toBeGreaterThan(1.5 * fume('3/8', 'carbon steel').fume);
  });

  it('holds the manganese of the steel that is burnt', () => {
    const much = withRows(number('manganese steel content', 0.14));
    expect(fume('3/8', 'manganese steel', much).manganese).toBeGreaterThan(
      5 * fume('3/8', 'carbon steel', much).manganese,
    );
    expect(fume('3/8', 'carbon steel', much)).toEqual(fume('3/8', 'carbon steel'));
  });
});
