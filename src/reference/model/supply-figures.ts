/** Hose and cylinder. */
import type { LinePlot } from '../../pane/charts/line-plot.ts';
import { maybeCell, numberOf, rangeOf, rowsOf, steps } from './figures.ts';

const BORES = ['1/2', '3/8', '1/4'] as const;
export const SETTING = 90;

export function flowByHose(): LinePlot {
  return {
    name: 'flow-by-hose',
    title: 'Flow through a 3/8 rod, against the length of hose',
    caption: `Regulator set to ${SETTING} psi while oxygen flows, one full cylinder. A thin hose eats the pressure the rod needs; a wide one hardly matters.`,
    formula: `=BURN.SUPPLY.CHECK("3/8 x 36",${SETTING},100,"1/4",1)`,
    x: { label: 'hose length', unit: 'ft', low: 0, high: 200 },
    y: { label: 'flow', unit: 'scfm', low: 0 },
    series: BORES.map((bore) => ({
      name: `${bore} in`,
      points: [5, 10, 25, 50, 75, 100, 125, 150, 175, 200].map((length) => ({
        x: length,
        y: maybeCell(
          rowsOf('BURN.SUPPLY.CHECK', '3/8 x 36', SETTING, length, bore, 1).find((r) => r['what'] === 'flow'),
          'now',
        ),
      })),
    })),
  };
}

/** What is printed on the common cylinder, as assumed. */
export const cylinder = { litres: rangeOf('cylinder volume').value, psi: rangeOf('cylinder pressure').value };

export function contentByTemperature(): LinePlot {
  return {
    name: 'content-by-temperature',
    title: 'Oxygen that can be drawn from a cylinder, against temperature',
    caption: `A cylinder of ${cylinder.litres} L, filled to ${cylinder.psi} psi at 70 F, real gas. Its gauge reads less in the cold although the oxygen is the same; what stays in at a leftover pressure is a little more in the cold. Most of the loss is the leftover itself.`,
    formula: `=BURN.CYLINDER.CONTENT(${cylinder.litres},BURN.CYLINDER.GAUGE(${cylinder.psi},40),40,250)`,
    x: { label: 'temperature of the gas', unit: 'F', low: 0, high: 100 },
    y: { label: 'oxygen that can be drawn', unit: 'scf', low: 0 },
    series: [0, 250, 500].map((left) => ({
      name: `${left} psi left`,
      points: steps(0, 100, 10).map((t) => ({
        x: t,
        y: numberOf(
          'BURN.CYLINDER.CONTENT',
          cylinder.litres,
          numberOf('BURN.CYLINDER.GAUGE', cylinder.psi, t),
          t,
          left,
        ),
      })),
    })),
  };
}
