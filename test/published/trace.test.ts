/**
 * The working that `calc --trace` writes, replayed by a program of its own in another language, from that file alone. Checked
 * against its schema by a general library (ajv).
 */
import { spawnSync } from 'node:child_process';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import type { Declaration } from '../../src/catalogue/declaration.ts';
import { calc, readCalc } from '../../src/cli/calc.ts';
import type { Trace } from '../../src/cli/trace.ts';
import { asInTheHost } from '../../src/engine/as-in-the-host.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';

const hasWorking = (d: Declaration): boolean => 'working' in d;
const REPLAY = new URL('replay_trace.py', import.meta.url).pathname;
const run = async (...args: readonly string[]): Promise<{ readonly code: number; readonly out: string }> => {
  const asked = readCalc(args);
  return 'code' in asked ? asked : calc(asked, hostFunctions.map(asInTheHost), () => new Uint8Array());
};
const replayed = (trace: unknown): ReturnType<typeof spawnSync> =>
  spawnSync('python3', [REPLAY], { input: JSON.stringify(trace), encoding: 'utf8', maxBuffer: 1e8 });

const worked = CATALOGUE.filter(hasWorking);
let trace: Trace;
beforeAll(async () => {
  const { out } = await run('--trace', '--', ...worked.flatMap((d) => d.examples));
  trace = JSON.parse(out) as Trace;
});

describe('the trace of every example', () => {
  it('is as its schema has it', async () => {
    const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(
      JSON.parse((await run('--trace-schema')).out) as object,
    );
    validate(trace);
    expect(validate.errors).toBeNull();
  });

  it('has the working of each call, and the value among its nodes', () => {
    for (const { formula, values, calls } of trace.formulas) {
      expect(calls.length, formula).toBeGreaterThan(0);
      // Calls within it come first.
      const call = calls.at(-1);
      const [item] = call?.items ?? [];
      if (!item || !('nodes' in item) || item.result === null || call?.items.length !== 1) continue;
      const { shown } = item.nodes.find(({ symbol }) => symbol === item.result)!;
      if (typeof shown.value === 'number' && values.length === 1)
        expect(values[0]?.[0], formula).toBeCloseTo(shown.value, 9);
    }
  });

  it('comes out again in Python, from the file alone', () => {
    const { status, stdout, stderr } = replayed(trace);
    expect(stderr).toBe('');
    expect(status).toBe(0);
    const [, workings = '0', , calculated = '0'] =
      /^(\d+) workings, (\d+) nodes, (\d+) calculated/.exec(String(stdout)) ?? [];
    expect(Number(workings)).toBeGreaterThan(worked.length - 1);
    expect(Number(calculated)).toBeGreaterThan(1000);
  });

  it('is found out where a value was changed, or a node is missing', () => {
    const [first] = trace.formulas.filter(({ formula }) => formula.startsWith('=BURN.PIN.OXYGEN'));
    const spoilt = (spoil: (nodes: { symbol: string; value: number | string }[]) => void): unknown => {
      const copy = structuredClone({ ...trace, formulas: [first] }) as unknown as {
        formulas: { calls: { items: { nodes: { symbol: string; value: number | string }[] }[] }[] }[];
      };
      spoil(copy.formulas[0]!.calls[0]!.items[0]!.nodes);
      return copy;
    };
    const wrong = replayed(
      spoilt((nodes) => {
        const oxygen = nodes.find(({ symbol }) => symbol === 'O')!;
        oxygen.value = (oxygen.value as number) * 1.00001;
      }),
    );
    expect(wrong.status).toBe(1);
    expect(wrong.stderr).toMatch(/O = .* gives .*, told/);
    const without = replayed(spoilt((nodes) => void nodes.splice(2, 1)));
    expect(without.status).toBe(1);
    expect(without.stderr).toMatch(/does not stand before it|hash/);
  });
});
