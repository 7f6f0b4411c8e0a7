import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../src/core/assumptions/assumptions.ts';
import { Basis, NotingBasis } from '../../src/core/basis.ts';
import { findMaterial } from '../../src/core/burn/materials.ts';
import { findRod } from '../../src/core/burn/rods.ts';
import { OPERATION_IDS, operationOf } from '../../src/core/operations/all.ts';
import { drawItem } from '../../src/core/operations/draw-item.ts';
import { sized } from '../../src/core/operations/sized.ts';

const changedBy = (a: Assumptions, name: Parameters<Assumptions['value']>[0], value: number): Assumptions =>
  Assumptions.from([{ name, value, low: value, high: value, kind: 'your value' }], a);

describe('a basis that notes what its values rest on', () => {
  it('hands on what does not rest on the changed assumption, and nothing that does, also through another value', () => {
    const noting = new NotingBasis(Assumptions.defaults());
    const made: string[] = [];
    const ask = (basis: Basis): number =>
      basis.once('outer', () => {
        made.push('outer');
        return (
          basis.once('inner', () => {
            made.push('inner');
            return basis.a.value('stub');
          }) +
          basis.once('other', () => {
            made.push('other');
            return basis.a.value('burning duty');
          })
        );
      });
    const before = ask(noting);
    expect([...noting.asked].sort()).toEqual(['burning duty', 'stub']);
    made.length = 0;
    expect(ask(noting.changed('stub', changedBy(noting.a, 'stub', 1)))).toBeCloseTo(
      before - Assumptions.defaults().value('stub') + 1,
      12,
    );
    expect(made).toEqual(['outer', 'inner']);
    made.length = 0;
    expect(ask(noting.changed('advance limit', noting.a))).toBe(before);
    expect(made).toEqual([]);
  });

  it('keeps nothing of what failed, and still counts what it asked for', () => {
    const noting = new NotingBasis(Assumptions.defaults());
    const fails = (): number => {
      throw new Error(`no result at ${noting.a.value('stub')}`);
    };
    expect(() => noting.once('key', fails)).toThrow('no result');
    expect([...noting.asked]).toEqual(['stub']);
    expect(noting.once('key', () => 3)).toBe(3);
  });

  // Every value kept while an item is sized and drawn must ask within itself for what it rests on: else one that should change would be handed on.
  const SIZES: Readonly<Record<string, Readonly<Record<string, number>>>> = {
    PIN: { diameter: 0.1, length: 0.25 },
    HOLE: { hole: 0.04, depth: 0.15 },
    GOUGE: { width: 0.02, depth: 0.012, length: 0.6 },
    CUT: { thickness: 0.05, length: 0.6 },
    STUD: { diameter: 0.04, count: 6 },
    BREACH: { thickness: 0.6, hole: 0.06, count: 2 },
  };
  it.each(OPERATION_IDS)('sizes and draws %s with any assumption changed as a fresh basis does', (id) => {
    const a = Assumptions.from([
      { name: 'position', word: 'underwater' },
      { name: 'water depth', value: 12, kind: 'your value' },
      { name: 'rod flow measured', value: 0.005, kind: 'your value' },
      { name: 'cooling method', word: 'water' },
    ]);
    const figures = (basis: Basis): readonly (number | string)[] => {
      try {
        const s = sized({
          operation: operationOf(id),
          sizes: SIZES[id] ?? {},
          rod: id === 'CUT' ? findRod('3/8') : undefined,
          material: findMaterial(id === 'BREACH' ? 'reinforced concrete' : 'cast iron'),
          basis,
        });
        const { oxygen, crewTime } = drawItem(s, 8, basis);
        return [s.name, s.pressure, s.flow, s.oxygen, s.rods, s.burnTime, s.crewTime, ...oxygen, ...crewTime];
      } catch (e) {
        return [String(e)];
      }
    };
    const noting = new NotingBasis(a);
    figures(noting);
    expect(noting.asked.size).toBeGreaterThan(20);
    // Those of the cooling make up most of the time and are the same for every pin.
    for (const name of noting.asked) {
      const { low, high } = a.inForce(name);
      const varied = changedBy(a, name, low < high ? low : a.value(name) * 1.01);
      expect(figures(noting.changed(name, varied)), name).toEqual(figures(new Basis(varied)));
    }
  });
});
