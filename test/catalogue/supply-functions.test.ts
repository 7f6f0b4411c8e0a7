import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { isCellError, type Cell } from '../../src/catalogue/cell.ts';
import { itemsOfCall } from '../../src/catalogue/items-of-call.ts';
import { cautionsOf } from '../../src/core/safety/cautions.ts';
import type { WorkedStep } from '../../src/core/model/step.ts';
import { explain } from '../../src/sheet/explain.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { replay } from '../core/model/replay.ts';
import { cellsOf, numberOf, rowsOf, textOf } from '../published/plan-of.ts';

const CONTENT = 'BURN.CYLINDER.CONTENT';
const COUNT = 'BURN.CYLINDER.COUNT';
const GAUGE = 'BURN.CYLINDER.GAUGE';
const LOSS = 'BURN.HOSE.LOSS';
const SETTING = 'BURN.HOSE.SETTING';
const CHECK = 'BURN.SUPPLY.CHECK';

/** `#CODE! message` of a function's first cell; a text that no error has where there is none. */
function errorOf(name: string, ...args: readonly Argument[]): string {
  const cell = cellsOf(name, ...args)[0]?.[0] ?? null;
  return isCellError(cell) ? `${cell.error} ${cell.message}` : `no error: ${String(cell)}`;
}

/** Leaves trailing arguments out and puts `assume` last. */
const withAssume = (
  name: string,
  args: readonly Argument[],
  assume: readonly (readonly Cell[])[],
): readonly Argument[] => {
  const count = Object.keys(findFunction(name)?.parameters ?? {}).length;
  return [...args, ...Array.from({ length: count - args.length }, () => undefined), assume];
};

function stepsOf(name: string, ...args: readonly Argument[]): readonly WorkedStep[] {
  const found = findFunction(name);
  return found ? explain(found, args).steps : [];
}

/** Rows of a checked supply by their first cell; of several mends the first. */
function checked(...args: readonly Argument[]): Readonly<Record<string, readonly Cell[]>> {
  const rows: Record<string, readonly Cell[]> = {};
  for (const [what, ...rest] of cellsOf(CHECK, ...args).slice(1)) rows[textOf(what)] ??= rest;
  return rows;
}
const now = (rows: Readonly<Record<string, readonly Cell[]>>, what: string): number => rows[what]?.[0] as number;
const then = (rows: Readonly<Record<string, readonly Cell[]>>, what: string): number => rows[what]?.[1] as number;

describe('cylinder content in a cell', () => {
  it.each([
    // A common size holds 244 cu ft at 2200 psi and 70 F; by the equation of state that takes 43.0 L of water volume.
    [43.0, 2200, 244],
    // US Army TC 9-237: 220 cu ft at 2000 psi; 42.7 L.
    [42.7, 2000, 220],
  ])(
    'of %d L at %d psi is what is printed on it, %d cu ft, less what stays at air pressure',
    (litres, psi, printed) => {
      const atAir = litres / 28.316846592; // one cubic foot of oxygen at 70 F and air pressure for each of water volume
      expect(Math.abs((numberOf(CONTENT, litres, psi, 70, 0) + atAir) / printed - 1)).toBeLessThan(0.002);
    },
  );

  it.each([
    // Deliverable to 0 psig for each cubic foot of water volume at 70 F, by the reference equation with an independent program.
    [1800, 130.12],
    [2015, 146.03],
    [2216, 160.79],
    [2400, 174.18],
    [2640, 191.39],
  ])('at %d psi is that of the reference table, %d scf a cubic foot', (psi, scf) => {
    expect(numberOf(CONTENT, '1 cu ft', psi, 70, 0)).toBeCloseTo(scf, 1);
  });

  it('never is more than the cylinder holds, and falls with leftover and temperature', () => {
    for (const psi of [300, 1000, 2200, 2900]) {
      const all = numberOf(CONTENT, 43, psi, 70, 0);
      let before = Infinity;
      for (const left of [0, 50, 150, 300]) {
        const content = numberOf(CONTENT, 43, psi, 70, left);
        expect(content).toBeLessThan(before);
        expect(content).toBeLessThanOrEqual(all);
        expect(content).toBeGreaterThanOrEqual(0);
        before = content;
      }
      expect(numberOf(CONTENT, 43, psi, 90, 0)).toBeLessThan(all);
      expect(numberOf(CONTENT, 86, psi, 70, 0) / all).toBeCloseTo(2, 12);
    }
  });

  it('leaves the assumed pressure where none is given, or what the regulator needs', () => {
    expect(numberOf(CONTENT, 43, 2200)).toBe(numberOf(CONTENT, 43, 2200, 70, 250));
    expect(numberOf(CONTENT, ...withAssume(CONTENT, [43, 2200], [['leftover pressure', 400]]))).toBeCloseTo(
      numberOf(CONTENT, 43, 2200, 70, 400),
      9,
    );
    // Delivery pressure 300 psi and a droop of 6 psi at 20 scfm, drawn at 10 scfm: 303 psi.
    expect(numberOf(CONTENT, ...withAssume(CONTENT, [43, 2200], [['delivery pressure', 300]]))).toBeCloseTo(
      numberOf(CONTENT, 43, 2200, 70, 303),
      6,
    );
  });

  it('knows common sizes and packs by name', () => {
    expect(numberOf(CONTENT, '43 l', 2200)).toBeCloseTo(numberOf(CONTENT, 43, 2200), 9);
    expect(
      numberOf(CONTENT, '12 x 50 L pack', '200 bar', '15 C', 0) / numberOf(CONTENT, '50 L', '200 bar', '15 C', 0),
    ).toBeCloseTo(12, 9);
    expect(errorOf(CONTENT, '13 x 50 L pack', 2200)).toBe(
      '#N/A cylinder "13 x 50 L pack" is not in the register; nearest: 12 x 50 L pack, 16 x 50 L pack, 50 L',
    );
  });

  it("refuses a fill beyond the rating and a tenth, a cold beyond the range and a leftover above the pressure, in the user's units", () => {
    expect(errorOf(CONTENT, 43, 3500)).toMatch(
      /^#VALUE! pressure is 3500 psi; must be at most 3190 psi, a tenth over the cylinder's rating of 2900 psi at 70 F/,
    );
    expect(errorOf(CONTENT, '43 L', 2500)).toContain(
      "must be at most 2420 psi, a tenth over the cylinder's rating of 2200 psi at 70 F",
    );
    expect(numberOf(CONTENT, ...withAssume(CONTENT, ['43 L', 2640], [['cylinder rating', 2400]]))).toBeGreaterThan(250);
    expect(errorOf(CONTENT, ...withAssume(CONTENT, [43, 240], [['units', 'SI']]))).toMatch(
      /pressure is 240 bar; must be at most 219\.9\d* bar, a tenth over the cylinder's rating of 199\.9\d* bar at 21\.1111 C/,
    );
    // Colder, a full cylinder reads less: the limit goes with it.
    expect(errorOf(CONTENT, 43, 3100, 0)).toContain('pressure is 3100 psi; must be at most');
    expect(errorOf(CONTENT, 43, 1500, -70)).toBe('#VALUE! temperature is -70 F; must be at least -60.07 F');
    expect(errorOf(CONTENT, 43, 2200, 180)).toBe('#VALUE! temperature is 180 F; must be at most 170.33 F');
    expect(errorOf(CONTENT, 43, 100)).toBe(
      "#VALUE! leftover pressure is 250 psi; must be at most the cylinder's 100 psi",
    );
    expect(errorOf(CONTENT, 0, 2200)).toBe('#VALUE! water volume is blank or zero; must be more than 0');
    expect(errorOf(CONTENT, 'big', 2200)).toContain('water volume is "big"; must be a number');
    expect(errorOf(CONTENT, -43, 2200)).toContain('water volume is -43 L; must be more than 0 L');
  });
});

describe('cylinders counted in a cell', () => {
  it('honour leftover pressure, the cold of a fast draw, and the loss of each change', () => {
    const content = numberOf(CONTENT, 43, 2200);
    const each = (stepsOf(COUNT, 1000).find((s) => s.symbol === 'C_use')?.value as number) / 0.0375521146;
    expect(each).toBeLessThan(content - 2);
    expect(each).toBeGreaterThan(0.95 * content - 2);
    expect(numberOf(COUNT, 4 * each * (1 - 1e-12))).toBe(4);
    expect(numberOf(COUNT, 4 * each * 1.001)).toBe(5);
    expect(numberOf(COUNT, 0)).toBe(0);
  });

  it('serve less when drawn faster, and more of it together on a manifold', () => {
    const each = (...rows: readonly (readonly Cell[])[]): number =>
      stepsOf(COUNT, 1000, undefined, rows).find((s) => s.symbol === 'C_use')?.value as number;
    expect(each(['cylinder draw flow', 20])).toBeLessThan(each());
    expect(each(['cylinders on manifold', 3])).toBeGreaterThan(each());
    expect(each(['cylinder change loss', 10])).toBeLessThan(each());
    expect(each(['delivery pressure', 400])).toBeLessThan(each());
    expect(each(['gas temperature', 20])).toBeLessThan(each());
  });

  it("take a content of the user's own as what can be drawn slowly", () => {
    expect(numberOf(COUNT, 1000, numberOf(CONTENT, 43, 2200))).toBe(numberOf(COUNT, 1000));
    for (const oxygen of [10, 333, 1000, 12_345]) {
      const n = numberOf(COUNT, oxygen, 200);
      expect(200 * n).toBeGreaterThan(oxygen);
      expect(n).toBeGreaterThanOrEqual(numberOf(COUNT, oxygen, 300));
    }
    expect(errorOf(COUNT, 1000, 2)).toMatch(
      /^#VALUE! content is 2 scf; must be more than the 2\.0\d+ scf that the cold holds back/,
    );
  });

  it('count a list at once', () => {
    expect(cellsOf(COUNT, [[100], [null], [1000]])).toEqual([[1], [null], [5]]);
  });

  it('say what cannot be drawn', () => {
    expect(errorOf(COUNT, 1000, undefined, [['cylinder pressure', 200]])).toContain(
      "leftover pressure is 250 psi; must be at most the cylinder's 200 psi",
    );
    expect(errorOf(COUNT, 1000, undefined, [['cylinder pressure', 3500]])).toContain(
      'cylinder pressure is 3500 psi; must be at most 3190 psi',
    );
    expect(
      errorOf(COUNT, 1000, undefined, [
        ['cylinder draw flow', 500],
        ['regulator valve', 1],
        ['regulator droop', 0],
        ['delivery pressure', 10],
        ['leftover pressure', 20],
      ]),
    ).toContain('drawn so fast');
  });
});

describe('the gauge of a cylinder', () => {
  it.each([
    [0, 1783],
    [100, 2377],
  ])('filled to 2200 psi at 70 F reads at %d F what the equation of state gives, %d psi', (fahrenheit, psi) => {
    expect(Math.abs(numberOf(GAUGE, 2200, fahrenheit) - psi)).toBeLessThan(1);
  });

  it('reads the same at 70 F, and less the colder', () => {
    expect(numberOf(GAUGE, 2200, 70)).toBeCloseTo(2200, 6);
    expect(cellsOf(GAUGE, 2200, [[0, 40, 70, 120]]).flat()).toEqual(
      [...cellsOf(GAUGE, 2200, [[0, 40, 70, 120]]).flat()].sort((a, b) => Number(a) - Number(b)),
    );
  });

  it('refuses what the equation of state does not reach', () => {
    expect(errorOf(GAUGE, 5000, 70)).toBe('#VALUE! pressure at 70 F is 5000 psi; must be at most 4300 psi');
    expect(errorOf(GAUGE, 4200, 170)).toMatch(
      /^#VALUE! pressure at 70 F is 4200 psi; must be at most 3332\.04 psi, with the gauge at 4336\.4\d psi at 170 F/,
    );
    expect(errorOf(GAUGE, 2200, 300)).toBe('#VALUE! temperature is 300 F; must be at most 170.33 F');
    expect(errorOf(GAUGE, 0, 70)).toContain('pressure at 70 F is blank or zero');
  });
});

describe('hose loss in a cell', () => {
  it.each([
    // scfm (70 F), bore [in], length [ft], setting [psig], loss [psi]: oxygen at 70 F in smooth hose, by the open library fluids 1.3.1.
    [10, 0.25, 25, 60, 10.977],
    [10, 0.25, 50, 60, 24.387],
    [10, 0.25, 100, 90, 34.564],
    [10, 0.375, 25, 90, 1.038],
    [10, 0.375, 50, 90, 2.086],
    [10, 0.375, 100, 90, 4.215],
    [10, 0.5, 25, 90, 0.262],
    [10, 0.5, 50, 90, 0.525],
    [10, 0.5, 100, 90, 1.052],
    [20, 0.25, 25, 150, 16.69],
    [20, 0.375, 25, 60, 5.198],
    [20, 0.375, 50, 60, 10.827],
    [20, 0.375, 100, 60, 23.984],
    [20, 0.5, 25, 60, 1.269],
    [20, 0.5, 50, 60, 2.561],
    [20, 0.5, 100, 60, 5.216],
    [30, 0.25, 25, 150, 37.73],
    [30, 0.375, 25, 90, 7.686],
    [30, 0.375, 50, 90, 16.054],
    [30, 0.375, 100, 150, 19.872],
    [30, 0.5, 25, 150, 1.176],
    [30, 0.5, 50, 150, 2.361],
    [30, 0.5, 100, 150, 4.757],
  ])('at %d scfm in %d in x %d ft from %d psi is %d psi', (flow, bore, length, setting, loss) => {
    expect(Math.abs(numberOf(LOSS, flow, setting, length, bore) / loss - 1)).toBeLessThan(0.005);
  });

  it.each([
    // Cases that cannot flow: the largest scfm by the same program, with the friction factor of the flow asked for.
    [10, 0.25, 100, 60, 9.37],
    [20, 0.25, 25, 60, 18.92],
    [20, 0.25, 50, 60, 13.89],
    [20, 0.25, 50, 90, 19.48],
    [20, 0.25, 100, 60, 10.05],
    [20, 0.25, 100, 90, 14.09],
    [30, 0.25, 25, 60, 19.6],
    [30, 0.25, 25, 90, 27.48],
    [30, 0.25, 50, 60, 14.41],
    [30, 0.25, 50, 90, 20.21],
    [30, 0.25, 100, 60, 10.45],
    [30, 0.25, 100, 90, 14.65],
    [30, 0.25, 100, 150, 23.07],
    [30, 0.375, 100, 60, 27.36],
  ])(
    'says that %d scfm cannot pass %d in x %d ft from %d psi, and the largest flow',
    (flow, bore, length, setting, most) => {
      const message = errorOf(LOSS, flow, setting, length, bore);
      expect(message).toContain(
        `#N/A the hose cannot pass ${String(flow)} scfm from ${String(setting)} psi: its largest flow is `,
      );
      const largest = Number(/largest flow is ([\d.]+) scfm/.exec(message)?.[1]);
      // A smaller flow has more friction, and the air at the end holds some back: a little less than the reference, which leaves both out.
      expect(largest).toBeLessThan(most);
      expect(largest).toBeGreaterThan(0.85 * most);
      expect(numberOf(LOSS, 0.999 * largest, setting, length, bore)).toBeGreaterThan(0);
      expect(errorOf(LOSS, 1.001 * largest, setting, length, bore)).toContain('#N/A');
    },
  );

  it('grows with flow and length, and falls with bore and setting', () => {
    const loss = numberOf(LOSS, 15, 90, 50, 0.375);
    expect(numberOf(LOSS, 16, 90, 50, 0.375)).toBeGreaterThan(loss);
    expect(numberOf(LOSS, 15, 90, 55, 0.375)).toBeGreaterThan(loss);
    expect(numberOf(LOSS, 15, 90, 50, 0.4)).toBeLessThan(loss);
    expect(numberOf(LOSS, 15, 100, 50, 0.375)).toBeLessThan(loss);
    expect(numberOf(LOSS, 15, 90, 50, 0.375, [['hose fittings', 6]])).toBeGreaterThan(loss);
    expect(numberOf(LOSS, 15, 90, 50, 0.375, [['hose roughness', 0.0004]])).toBeGreaterThan(loss);
  });

  it('is undone by the setting, flowing or standing, with fittings or without', () => {
    for (const assume of [
      [['hose fittings', 0]],
      [['hose fittings', 6]],
      [
        ['hose fittings', 3],
        ['gas temperature', 40],
      ],
    ] as const)
      for (const [tip, flow, length, bore] of [
        [90, 15, 50, 0.375],
        [60, 8, 200, 0.25],
        [150, 40, 100, 0.5],
      ] as const) {
        const setting = numberOf(SETTING, tip, flow, length, bore, undefined, assume);
        expect(setting - numberOf(LOSS, flow, setting, length, bore, assume)).toBeCloseTo(tip, 6);
      }
    const standing = [
      ['regulator set', 'standing'],
      ['regulator droop', 8],
    ];
    const setting = numberOf(SETTING, 90, 10, 50, 0.375, undefined, standing);
    expect(setting - numberOf(SETTING, 90, 10, 50, 0.375)).toBeCloseTo(4, 9);
    expect(setting - numberOf(LOSS, 10, setting, 50, 0.375, standing) - 4).toBeCloseTo(90, 6);
  });

  it('refuses a bore of nothing and a setting that cannot give the tip pressure', () => {
    expect(errorOf(LOSS, 10, 90, 50, 0)).toBe('#VALUE! bore is blank or zero; must be more than 0');
    expect(errorOf(SETTING, 90, 10, 50, 0)).toBe('#VALUE! bore is blank or zero; must be more than 0');
    expect(errorOf(LOSS, 10, 60, 50, 0.375, [['tip pressure', 80]])).toBe(
      '#VALUE! setting is 60 psi; must be at least the tip pressure of 80 psi',
    );
    expect(
      errorOf(LOSS, 10, 100, 50, 0.375, [
        ['tip pressure', 80],
        ['water depth', 60],
      ]),
    ).toContain('must be at least the tip pressure of 80 psi over the 26.7 psi of the water');
    expect(errorOf(LOSS, 10, 20, 50, 0.375, [['water depth', 60]])).toBe(
      '#VALUE! setting is 20 psi; must be more than the 26.7 psi of the water at the work',
    );
    expect(errorOf(LOSS, 10, 1e6, 50, 0.375)).toContain('setting is 1000000 psi; must be at most 1000 psi');
  });
});

describe('the regulator setting in a cell', () => {
  it('adds 0.445 psi for each foot of sea water: 116.7 psi at 60 ft for 90 psi at the tip, and the loss of the hose', () => {
    // US Navy Diving Manual: 0.445 psi per foot. US Navy S0300-BB-MAN-010: tip pressure of 90 psi over the bottom's, 3/8 in hose.
    expect(numberOf(SETTING, 90, 1e-4, 100, '3/8', 60)).toBeCloseTo(116.7, 4);
    const setting = numberOf(SETTING, 90, 15, 100, '3/8', 60);
    expect(setting - numberOf(LOSS, 15, setting, 100, '3/8')).toBeCloseTo(116.7, 6);
    expect(numberOf(SETTING, 90, 1e-4, 100, '3/8', 1) - 90).toBeCloseTo(0.445, 4);
    expect(numberOf(SETTING, 90, 15, 100, '3/8', undefined, [['water depth', 60]])).toBe(setting);
    // A column of fresh water: 62.43 lb/ft3 / 144.
    expect(numberOf(SETTING, 90, 1e-4, 100, '3/8', 60, [['water', 'fresh']])).toBeCloseTo(90 + (60 * 62.43) / 144, 1);
  });

  it('rises with tip pressure, flow, length and depth, and falls with bore', () => {
    const setting = numberOf(SETTING, 90, 15, 50, 0.375, 30);
    expect(numberOf(SETTING, 95, 15, 50, 0.375, 30)).toBeGreaterThan(setting);
    expect(numberOf(SETTING, 90, 16, 50, 0.375, 30)).toBeGreaterThan(setting);
    expect(numberOf(SETTING, 90, 15, 60, 0.375, 30)).toBeGreaterThan(setting);
    expect(numberOf(SETTING, 90, 15, 50, 0.375, 40)).toBeGreaterThan(setting);
    expect(numberOf(SETTING, 90, 15, 50, 0.5, 30)).toBeLessThan(setting);
  });

  it('says what a hose can pass whose end chokes, or that no regulator can feed', () => {
    expect(errorOf(SETTING, 90, 100, 100, '1/8')).toMatch(
      /^#N\/A the hose cannot deliver 100 scfm at 90 psi: its end chokes at 33\.\d+ scfm; take a wider hose/,
    );
    expect(errorOf(SETTING, 90, 40, 1000, '3/16')).toMatch(
      /^#N\/A the hose cannot deliver 40 scfm at 90 psi with a setting of 1000 psi or less: its largest flow is 22\.\d+ scfm/,
    );
    expect(errorOf(SETTING, 300, 500, 3000, '1/16')).toContain('#N/A the hose cannot deliver');
  });
});

describe('a supply line checked in a cell', () => {
  const one = checked('3/8 x 36', 90, 50, '3/8', 1);

  it('agrees with hose, rod and cylinder worked out alone', () => {
    const mid = numberOf('BURN.ROD.FLOW', '3/8', now(one, 'tip'), 19.5);
    expect(now(one, 'hose loss') / numberOf(LOSS, mid, 90, 50, '3/8')).toBeCloseTo(1, 3);
    expect(now(one, 'regulator outlet')).toBeCloseTo(90, 6);
    expect(now(one, 'tip') + now(one, 'hose loss')).toBeCloseTo(90, 6);
    expect(now(one, 'cylinder')).toBeCloseTo(2200, 6);
    expect(then(one, 'cylinder')).toBeCloseTo(250, 6);
    expect(now(one, 'oxygen until the change')).toBeLessThan(numberOf(CONTENT, 43, 2200));
    const minutes = now(one, 'minutes until the change');
    expect(minutes).toBeGreaterThan(
      now(one, 'oxygen until the change') / Math.max(now(one, 'flow'), then(one, 'flow')),
    );
    expect(minutes).toBeLessThan(now(one, 'oxygen until the change') / Math.min(now(one, 'flow'), then(one, 'flow')));
  });

  it('takes what is left in the cylinders', () => {
    const half = checked('3/8 x 36', 90, 50, '3/8', 1, 100);
    expect(now(half, 'oxygen until the change')).toBeLessThan(100);
    expect(now(half, 'oxygen until the change')).toBeGreaterThan(95);
    expect(
      now(checked('3/8 x 36', 90, 50, '3/8', 2, 100), 'minutes until the change') /
        now(half, 'minutes until the change'),
    ).toBeGreaterThan(1.99);
    // What CONTENT gives of a full cylinder is a full cylinder.
    expect(now(checked('3/8 x 36', 90, 50, '3/8', 1, numberOf(CONTENT, 43, 2200)), 'cylinder')).toBeCloseTo(2200, 6);
    expect(errorOf(CHECK, '3/8 x 36', 90, 50, '3/8', 1, 400)).toMatch(
      /^#VALUE! content is 400 scf; must be at most 322\.\d+ scf, which the cylinder gives when filled to a tenth over its rating of 2900 psi/,
    );
  });

  it('names the hose that starves the rod, and mends it', () => {
    const thin = checked('3/8 x 36', 90, 200, '1/4', 1);
    expect(thin['limit']?.[0]).toBe('hose');
    const mends = cellsOf(CHECK, '3/8 x 36', 90, 200, '1/4', 1)
      .filter((r) => r[0] === 'mend')
      .map((r) => textOf(r[1]));
    expect(mends.map((m) => /^(set|take a hose|use)/.exec(m)?.[0])).toEqual(['set', 'take a hose', 'use']);
    const setting = Number(/set the regulator to (\d+) psi/.exec(mends[0] ?? '')?.[1]);
    // As much more as the line says that a hose without loss would give: 39 %.
    expect(now(checked('3/8 x 36', setting, 200, '1/4', 1), 'flow')).toBeGreaterThan(1.3 * now(thin, 'flow'));
    const wide = checked('3/8 x 36', 90, 200, '1/2', 1);
    expect(wide['limit']?.[0]).not.toBe('hose');
    expect(now(wide, 'flow')).toBeGreaterThan(1.3 * now(thin, 'flow'));
  });

  it('aims at the tip pressure of the assumptions where there is one', () => {
    const rows = (setting: number): readonly (readonly Cell[])[] =>
      cellsOf(CHECK, '3/8 x 36', setting, 200, '1/4', 2, undefined, undefined, [['tip pressure', 80]]);
    const setting = Number(
      /set the regulator to (\d+) psi/.exec(
        rows(90)
          .map((r) => textOf(r[1]))
          .join('\n'),
      )?.[1],
    );
    const mended = rows(setting);
    expect(mended.find((r) => r[0] === 'tip')?.[1]).toBeGreaterThanOrEqual(80);
    expect(mended.find((r) => r[0] === 'tip')?.[1]).toBeLessThan(81.5);
    expect(mended.find((r) => r[0] === 'limit')?.[1]).toBe('rod');
    expect(mended.find((r) => r[0] === 'mend')?.[1]).toContain('nothing before the rod needs mending');
  });

  it('names a worn regulator, a spent cylinder and a throttled holder', () => {
    expect(
      checked('3/8 x 36', 90, 50, '3/8', 1, undefined, undefined, [['regulator valve', 0.015]])['limit']?.[0],
    ).toBe('regulator');
    const spent = checked('3/8 x 36', 90, 50, '3/8', 1, 0.01, undefined, [
      ['leftover pressure', 0],
      ['delivery pressure', 0],
    ]);
    expect(spent['limit']?.[0]).toBe('cylinder');
    expect(now(spent, 'minutes until the change')).toBe(0);
    expect(spent['mend']?.[0]).toMatch(/^put on a fuller cylinder: at least \d+ psi$/);
    const throttled = checked('3/8 x 36', 90, 50, '3/8', 1, undefined, undefined, [['holder orifice', 0.05]]);
    expect(throttled['limit']?.[0]).toBe('holder');
    const orifice = Number(/orifice of ([\d.]+) in/.exec(textOf(throttled['mend']?.[0]))?.[1]);
    const opened = checked('3/8 x 36', 90, 50, '3/8', 1, undefined, undefined, [['holder orifice', orifice]]);
    expect(now(opened, 'flow')).toBeGreaterThan(1.9 * now(throttled, 'flow'));
  });

  it('gives less at depth, and nothing where the setting is below the water', () => {
    const deep = checked('3/8 x 36', 90, 50, '3/8', 1, undefined, 60);
    expect(now(deep, 'at the work')).toBeCloseTo(26.7, 9);
    expect(now(deep, 'flow')).toBeLessThan(now(one, 'flow'));
    expect(errorOf(CHECK, '3/8 x 36', 20, 50, '3/8', 1, undefined, 60)).toBe(
      '#VALUE! setting is 20 psi; must be more than the 26.7 psi of the water at the work',
    );
    expect(errorOf(CHECK, '3/8 x 36', 70, 50, '3/8', 1, undefined, undefined, [['tip pressure', 80]])).toBe(
      '#VALUE! setting is 70 psi; must be at least the tip pressure of 80 psi',
    );
  });

  it('refuses what cannot be', () => {
    expect(errorOf(CHECK, '3/8 x 36', 90, 50, 0, 1)).toBe('#VALUE! bore is blank or zero; must be more than 0');
    expect(errorOf(CHECK, '3/8 x 36', 90, 50, '3/8', 1.5)).toContain('cylinders is 1.5; must be a whole number');
    expect(errorOf(CHECK, '3/8 x 2', 90, 50, '3/8', 1)).toContain("stub is 3 in; must be less than the rod's 2 in");
    expect(errorOf(CHECK, 'broom', 90, 50, '3/8', 1)).toMatch(/^#N\/A rod "broom" is not in the register/);
    expect(errorOf(CHECK, '3/8', [[90], [100]], 50, '3/8', 1)).toContain(
      'setting is 2 rows by 1 column; this function takes one item',
    );
  });

  it('takes and gives SI', () => {
    const si = checked('3/8 x 36', `${String(90 / 14.503773773)} bar`, '50 ft', '0.375 in', 1, undefined, undefined, [
      ['units', 'SI'],
    ]);
    // A standard cubic foot of 70 F against a cubic metre of 15 C: the same mass.
    expect((now(si, 'flow') * 1.3543637) / 60 / 0.0375521146).toBeCloseTo(now(one, 'flow'), 5);
    expect(now(si, 'tip') * 14.503773773).toBeCloseTo(now(one, 'tip'), 5);
    expect(si['flow']?.[2]).toBe('m3/h');
    expect(then(si, 'coldest gas') * 1.8 + 32).toBeCloseTo(then(one, 'coldest gas'), 3);
  });

  it('works out a rod measured by the user with his flow', () => {
    const measured = [
      ['rod flow measured', 6],
      ['pressure', 80],
    ];
    expect(numberOf('BURN.ROD.FLOW', '3/8 x 36', 80, undefined, measured)).toBeCloseTo(6, 9);
    expect(numberOf('BURN.ROD.PRESSURE', '3/8 x 36', 6, undefined, measured)).toBeCloseTo(80, 6);
    // One factor for all pressures and lengths.
    const factor = (pressure: number, length: number): number =>
      numberOf('BURN.ROD.FLOW', '3/8', pressure, length, measured) / numberOf('BURN.ROD.FLOW', '3/8', pressure, length);
    expect(factor(120, 12)).toBeCloseTo(factor(80, 36), 9);
    for (const pressure of [40, 100])
      expect(
        numberOf('BURN.ROD.PRESSURE', '3/8', numberOf('BURN.ROD.FLOW', '3/8', pressure, 20, measured), 20, measured),
      ).toBeCloseTo(pressure, 6);
    const fitted = checked('3/8 x 36', 90, 50, '3/8', 1, undefined, undefined, measured);
    expect(now(fitted, 'flow') / now(one, 'flow')).toBeLessThan(factor(87, 20) * 1.05);
    expect(now(fitted, 'tip')).toBeGreaterThan(now(one, 'tip'));
  });

  it('shows a working whose formulas can be repeated', () => {
    for (const assume of [
      [],
      [
        ['regulator set', 'standing'],
        ['water', 'fresh'],
      ],
    ] as const) {
      const steps = stepsOf(CHECK, '3/8 x 36', 90, 50, '3/8', 1, 100, 30, assume);
      expect(new Set(steps.map((s) => s.symbol)).size).toBe(steps.length);
      expect(replay(steps).length).toBeGreaterThanOrEqual(2);
      for (const { step, value } of replay(steps))
        expect(value / (step.value as number), step.symbol).toBeCloseTo(1, 10);
    }
  });
});

describe('the supply of a list', () => {
  const rows = (...args: readonly Argument[]): readonly Readonly<Record<string, Cell>>[] =>
    rowsOf('BURN.PIN.PLAN', ...args);
  const sum = (plan: readonly Readonly<Record<string, Cell>>[], heading: string): number =>
    plan.reduce((total, row) => total + (row[heading] as number), 0);

  const last = (plan: readonly Readonly<Record<string, Cell>>[]): number => plan.at(-1)?.['cylinders so far'] as number;

  it('opens for the list as many cylinders as its oxygen takes together', () => {
    const plan = rows([[4], [3], [6], [3.5], [5]], [[10], [8], [20], [12], [15]]);
    expect(last(plan)).toBe(numberOf(COUNT, sum(plan, 'oxygen')));
    expect(last(plan)).toBeLessThan(plan.reduce((total, row) => total + numberOf(COUNT, row['oxygen'] ?? null), 0));
    const twice = rows([[4], [3], [6], [3.5], [5]], [[10], [8], [20], [12], [15]], undefined, undefined, undefined, [
      ['cylinder change loss', 100],
    ]);
    expect(last(twice)).toBeGreaterThan(1.5 * last(plan));
  });

  it('leaves in the cylinders what the item that needs the highest pressure asks for', () => {
    const plan = rows([[4], [6]], [[10], [20]], undefined, undefined, undefined, [
      ['leftover pressure', 20],
      ['cylinder volume', 5],
    ]);
    const high = Math.max(...plan.map((row) => row['regulator setting'] as number));
    const flow = Math.max(...plan.map((row) => row['flow'] as number));
    const counted = numberOf(COUNT, sum(plan, 'oxygen'), undefined, [
      ['leftover pressure', high + (6 * flow) / 20],
      ['cylinder volume', 5],
    ]);
    expect(last(plan)).toBe(counted);
  });

  it('sets the regulator for the tip pressure through the assumed hose', () => {
    const [row] = rows(4, 10);
    expect(row?.['regulator setting']).toBeCloseTo(
      numberOf(SETTING, row?.['tip pressure'] ?? null, row?.['flow'] ?? null, 50, '3/8'),
      9,
    );
    const [long] = rows(4, 10, undefined, undefined, undefined, [
      ['hose length', 300],
      ['hose bore', 0.25],
    ]);
    expect(long?.['regulator setting']).toBeGreaterThan((row?.['regulator setting'] as number) + 50);
    const [deep] = rows(4, 10, undefined, undefined, undefined, [['water depth', 60]]);
    expect(deep?.['regulator setting']).toBeGreaterThan((row?.['tip pressure'] as number) + 26.7);
  });

  it('fails in its own cell and says why, where the hose cannot feed the rod or the cylinder cannot be drawn', () => {
    const [starved] = rows(4, 10, undefined, undefined, undefined, [
      ['hose length', 3000],
      ['hose bore', 0.1],
    ]);
    expect(starved?.['regulator setting']).toMatchObject({ error: '#N/A' });
    expect(starved?.['oxygen']).toBeGreaterThan(0);
    expect(starved?.['note']).toContain('the hose cannot deliver');
    const [empty] = rows(4, 10, undefined, undefined, undefined, [['cylinder pressure', 200]]);
    expect(empty?.['cylinders so far']).toMatchObject({ error: '#VALUE!' });
    expect(empty?.['note']).toContain('leftover pressure is 250 psi');
    expect(empty?.['rods']).toBeGreaterThan(0);
  });

  it('shows setting, content and cylinders in the steps, each symbol once, with formulas that can be repeated', () => {
    const steps = stepsOf('BURN.PIN.STEPS', 4, 10, undefined, undefined, undefined, [
      ['water depth', 10],
      ['regulator set', 'standing'],
    ]);
    expect(new Set(steps.map((s) => s.symbol)).size).toBe(steps.length);
    expect(steps.map((s) => s.symbol)).toEqual(
      expect.arrayContaining(['p_reg', 'C_use', 'N_cyl', 'p_left', 'p_water']),
    );
    for (const { step, value } of replay(steps))
      expect(Math.abs(value - (step.value as number)), step.symbol).toBeLessThanOrEqual(1e-11 * Math.abs(value));
    const names = cellsOf('BURN.PIN.STEPS', 4, 10, undefined, undefined, undefined, [
      ['hose length', 3000],
      ['hose bore', 0.1],
    ]).map((r) => r[0]);
    expect(names).toContain('oxygen supply');
    expect(names).toContain('crew time');
  });
});

describe('the cautions of the oxygen supply', () => {
  it.each([CONTENT, COUNT, GAUGE, LOSS, SETTING, CHECK])('stand with %s', (name) => {
    const d = findFunction(name);
    const keys = d ? cautionsOf(itemsOfCall(d)).map((c) => c.key) : [];
    expect(keys).toEqual(
      expect.arrayContaining([
        'oil and grease',
        'open valves slowly',
        'oxygen is not air',
        'secure and cap cylinders',
        'apart from fuel gas',
        'leak test',
      ]),
    );
  });
});

describe('from -60 to 150 F', () => {
  const TEMPERATURES = Array.from({ length: 43 }, (_, i) => -60 + 5 * i);
  /** Every number of a function's cells at each temperature. */
  const sweep = (at: (temperature: number) => readonly (readonly Cell[])[]): readonly (readonly number[])[] =>
    TEMPERATURES.map((t) => {
      const cells = at(t).flat();
      expect(cells.find(isCellError), `at ${t} F`).toBeUndefined();
      return cells.filter((cell): cell is number => typeof cell === 'number');
    });
  const cold = (name: string, ...args: readonly Argument[]) =>
    sweep((t) =>
      cellsOf(
        name,
        ...withAssume(name, args, [
          ['gas temperature', t],
          ['ambient temperature', t],
        ]),
      ),
    );

  it.each([
    [CONTENT, sweep((t) => cellsOf(CONTENT, 43, 1500, t))],
    [GAUGE, sweep((t) => cellsOf(GAUGE, 2200, t))],
    ['BURN.ROD.FLOW', cold('BURN.ROD.FLOW', '3/8 x 36', 80)],
    ['BURN.ROD.PRESSURE', cold('BURN.ROD.PRESSURE', '3/8 x 36', 9)],
    [LOSS, cold(LOSS, 13, 100, 100, 0.375)],
    [SETTING, cold(SETTING, 80, 13, 200, 0.375)],
    [CHECK, cold(CHECK, '3/8 x 36', 100, 100, 0.375, 2)],
  ] as const)('%s goes on without a jump', (_, rows) => {
    rows.slice(1, -1).forEach((row, i) => {
      const [before, after] = [rows[i]!, rows[i + 2]!];
      expect(row).toHaveLength(before.length);
      // A step of 5 F departs from the straight line between its neighbours by less than half a percent.
      row.forEach((x, k) =>
        expect(Math.abs(before[k]! - 2 * x + after[k]!)).toBeLessThan(0.005 * Math.max(Math.abs(x), 1e-9)),
      );
    });
  });

  it('moves as a gas does: colder, a full cylinder reads less, a rod passes more and a hose loses less', () => {
    const first = (rows: readonly (readonly number[])[]): readonly number[] => rows.map(([x = NaN]) => x);
    const readings = first(sweep((t) => cellsOf(GAUGE, 2200, t)));
    readings.slice(1).forEach((x, i) => expect(x).toBeGreaterThan(readings[i]!));
    const flows = first(cold('BURN.ROD.FLOW', '3/8 x 36', 80));
    flows.slice(1).forEach((x, i) => expect(x).toBeLessThan(flows[i]!));
    const losses = first(cold(LOSS, 13, 100, 100, 0.375));
    losses.slice(1).forEach((x, i) => expect(x).toBeGreaterThan(losses[i]!));
  });

  it('sizes a pin at -40 F, and names the cautions of the cold', () => {
    const [row] = rowsOf('BURN.PIN.PLAN', 4, 10, undefined, undefined, undefined, [
      ['gas temperature', -40],
      ['ambient temperature', -40],
    ]);
    expect(row?.['rods']).toBeGreaterThan(0);
    expect(row?.['cautions']).toContain('frozen gear');
    expect(row?.['conditions']).toContain('cold weather -40 F');
  });

  it('passes less by mass through a rod at height for the same gauge pressure', () => {
    const at = (psi: number): number =>
      numberOf('BURN.ROD.FLOW', ...withAssume('BURN.ROD.FLOW', ['3/8 x 36', 80], [['air pressure', psi]]));
    const flows = [14.7, 12.2, 10.1, 8].map(at);
    flows.slice(1).forEach((x, i) => expect(x).toBeLessThan(flows[i]!));
    // The absolute pressure at the holder drives it: about in proportion while it is far above the air's.
    expect(flows[2]! / flows[0]!).toBeCloseTo((80 + 10.1) / (80 + 14.7), 1);
  });
});
