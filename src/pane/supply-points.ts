import { rodLine } from '../core/burn/rod-line.ts';
import { findRod } from '../core/burn/rods.ts';
import { CalcError } from '../core/errors.ts';
import { itemSetting } from '../core/operations/item-supply.ts';
import { ambientPressure } from '../core/oxygen/ambient-pressure.ts';
import { fullCylinder } from '../core/oxygen/full-cylinder.ts';
import { behindHolder } from '../core/oxygen/rod-flow.ts';
import type { Explained } from './explained.ts';

/** Gauge pressures along a supply line [Pa], those that the cell knows, and the flow [kg/s]. */
export interface SupplyPoints {
  readonly cylinder?: number;
  /** At the regulator's outlet. */
  readonly outlet?: number;
  /** At the end of the hose and the holder's inlet. */
  readonly tip?: number;
  /** Between holder and rod. */
  readonly behind?: number;
  /** At the work: of the water over it, or 0. */
  readonly work: number;
  readonly flow?: number;
}

/** Families whose cells are about a supply line; operations are known by their tip pressure and flow. */
const FAMILIES = ['HOSE', 'ROD', 'SUPPLY'];

/**
 * The supply line of a cell from its working: of a checked supply and of a hose as worked out there, of an operation or a rod
 * with its tip pressure and flow, fed through the hose and out of the cylinder of the assumptions. Undefined where the cell
 * says nothing of it.
 */
export function supplyPoints({
  family,
  stepValue,
  basis,
}: Pick<Explained, 'family' | 'stepValue' | 'basis'>): SupplyPoints | undefined {
  if (!basis) return undefined;
  const { a } = basis;
  const value = (symbol: string): number | undefined => {
    const found = stepValue(symbol);
    return typeof found === 'number' ? found : undefined;
  };
  const [flow, tip] = [value('m'), value('p')];
  const own = FAMILIES.includes(family);
  const known = own
    ? value('p_hose') !== undefined || (flow !== undefined && tip !== undefined)
    : flow !== undefined && tip !== undefined && value('L_rod') !== undefined;
  if (!known) return undefined;
  const air = a.value('air pressure');
  const work = value('p_work') ?? value('p_water') ?? ambientPressure(a) - air;
  const measured = {
    cylinder: value('p_cyl'),
    outlet: value('p_out'),
    tip: value('p_hose'),
    behind: value('p_behind'),
    work,
    flow,
  };
  if (own && measured.tip !== undefined) return defined(measured);
  const rod = rodOf(stepValue('rod'));
  const length = family === 'ROD' ? value('L') : ((value('L_rod') ?? 0) + (value('stub') ?? 0)) / 2;
  const behind =
    rod && tip !== undefined && length !== undefined && length > 0
      ? attempt(() => behindHolder(rodLine(rod, tip, basis), ambientPressure(a) + tip, length) - air)
      : undefined;
  const outlet =
    tip !== undefined && flow !== undefined
      ? attempt(() => itemSetting({ pressure: tip, flow }, basis).outlet)
      : undefined;
  const cylinder = attempt(() => fullCylinder(a).pressure - air);
  return defined({
    ...(own ? {} : { cylinder }),
    ...(own ? {} : { outlet }),
    tip: (tip ?? 0) + work,
    behind,
    work,
    flow,
  });
}

function rodOf(name: number | string | undefined): ReturnType<typeof findRod>['rod'] | undefined {
  return typeof name === 'string' ? attempt(() => findRod(name).rod) : undefined;
}

/** What cannot be worked out is left out of the drawing: the cell's own error says why. */
function attempt<T>(make: () => T): T | undefined {
  try {
    return make();
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
}

function defined(points: Readonly<Record<string, number | undefined>>): SupplyPoints {
  return Object.fromEntries(Object.entries(points).filter(([, x]) => x !== undefined)) as unknown as SupplyPoints;
}
