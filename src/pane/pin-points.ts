import { CalcError } from '../core/errors.ts';
import { SHRINK_GRID, type ShrinkReason } from '../core/fit/shrink-pin.ts';
import type { CoolingMethod, PinInBoss } from '../core/heat/cool-pin.ts';
import { bossInForce, methodInForce } from '../core/heat/heat-in-force.ts';
import { burntPinShrink } from '../core/operations/burnt-pin-shrink.ts';
import type { Explained } from './explained.ts';

const FAMILIES = ['PIN', 'COOL', 'GRIP'];

/** The pin that a cell is about [m], from its working; a hole of 0 is a solid pin. Undefined where the cell names none. */
export function pinOfCell({
  family,
  stepValue,
  basis,
}: Pick<Explained, 'family' | 'stepValue' | 'basis'>): PinInBoss | undefined {
  if (!basis || !FAMILIES.includes(family)) return undefined;
  const value = (symbol: string): number | undefined => {
    const found = stepValue(symbol);
    return typeof found === 'number' ? found : undefined;
  };
  const [diameter, hole] = [value('D'), value('d')];
  if (diameter === undefined || hole === undefined || !(hole < diameter)) return undefined;
  const { a } = basis;
  return {
    diameter,
    hole,
    boss: value('D_o') ?? bossInForce(diameter, a),
    length: value('L') ?? a.value('length over diameter') * diameter,
  };
}

export interface PinMoment {
  /** From the end of burning [s], negative while it burns. */
  readonly time: number;
  /** Nearest the bore, nearest the joint, outermost of the boss [K]. */
  readonly bore: number;
  readonly surface: number;
  readonly boss: number;
  /** Contact pressure [Pa]. */
  readonly pressure: number;
}

export interface PinHistory {
  readonly method: CoolingMethod;
  readonly moments: readonly PinMoment[];
  /** Until it can be pushed [s]. */
  readonly pushed: number;
  readonly reason: ShrinkReason;
}

/** As many points as a chart can show. */
const MOST_MOMENTS = 120;

/** Temperatures and contact pressure from the start of burning until the pin can be pushed; undefined where there is no solution, or a solid pin. */
export function pinHistory(
  pin: PinInBoss,
  { basis, values }: Pick<Explained, 'basis' | 'values'>,
): PinHistory | undefined {
  if (!basis || !(pin.hole > 0)) return undefined;
  const method =
    values?.['method'] === 'air' || values?.['method'] === 'water' ? values['method'] : methodInForce(basis.a);
  const wanted = typeof values?.['target'] === 'number' ? values['target'] : undefined;
  try {
    const { history, reason, pushed } = burntPinShrink(pin, { method, target: wanted }, basis);
    const every = Math.max(1, Math.ceil(history.length / MOST_MOMENTS));
    const moments = history.flatMap(({ time, pressure, temperatures: cells }, i): PinMoment[] => {
      if (i % every !== 0 && i !== history.length - 1) return [];
      return [
        {
          time,
          pressure,
          bore: cells[0] ?? NaN,
          surface: cells[SHRINK_GRID.pinCells - 1] ?? NaN,
          boss: cells[cells.length - 1] ?? NaN,
        },
      ];
    });
    return { method, moments, pushed: pushed.time, reason };
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
}
