/** What it takes to add an operation: its declaration. */
import { describe, expect, it } from 'vitest';
import { operationFamily } from '../../src/catalogue/operation-family.ts';
import { calculated } from '../../src/core/model/step.ts';
import { defineOperation } from '../../src/core/operations/operation.ts';
import { severPressure } from '../../src/core/operations/tip-pressure.ts';
import { call } from '../../src/sheet/call.ts';
import { explain } from '../../src/sheet/explain.ts';
import { replay } from '../core/model/replay.ts';

/** An invented operation: melting a plug of a given volume out of a pocket. */
const PLUG = defineOperation({
  id: 'PLUG',
  summary: 'melt a plug out of a pocket',
  order: ['volume', 'depth'],
  sizes: {
    volume: { summary: 'Volume of the plug', symbol: 'V_plug', quantity: 'volume', above: 0, max: 1, example: '0.01' },
    depth: { summary: 'Depth of the pocket', symbol: 'x_plug', quantity: 'length', above: 0, max: 1, example: '4' },
  },
  opening: () => undefined,
  work: () => ({
    steps: [
      calculated('V', 'volume to melt', 'volume', 'V_plug', 'the plug'),
      calculated('reach', 'depth to reach', 'length', 'x_plug', 'the pocket'),
    ],
  }),
  pressure: severPressure('x_plug'),
  crewTimes: ['set-up time'],
  cautions: [],
});

describe('a new operation', () => {
  const family = operationFamily(PLUG);

  it('gets its seven functions from its declaration', () => {
    expect(family.map((d) => d.name)).toEqual(
      ['RODS', 'OXYGEN', 'BURN', 'TIME', 'PRESSURE', 'PLAN', 'STEPS'].map((f) => `BURN.PLUG.${f}`),
    );
    for (const d of family.slice(0, 5)) expect(call(d, [0.01, 4])[0]?.[0], d.name).toBeGreaterThan(0);
    expect(call(family[4]!, [0.01, 4])[0]?.[0]).toBeCloseTo(90, 9);
  });

  it('gets its working, which replays', () => {
    const { steps } = explain(family[1]!, [0.01, 4]);
    for (const { step, value } of replay(steps)) expect(value).toBeCloseTo(step.value as number, 9);
    expect(steps.map((s) => s.symbol)).toEqual(expect.arrayContaining(['V_plug', 'V', 'k', 't', 'N', 'O']));
  });

  it('gets refused sizes, lists and assumptions as any other', () => {
    expect(call(family[0]!, [[[0.01], [0.02], [-1]], 4]).map((r) => typeof r[0])).toEqual([
      'number',
      'number',
      'object',
    ]);
    expect(call(family[0]!, [0.01, 4, undefined, undefined, [['stubb', 3]]])[0]?.[0]).toMatchObject({ error: '#N/A' });
  });
});
