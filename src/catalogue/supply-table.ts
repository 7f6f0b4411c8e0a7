import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { mends as texts, shown } from '../core/messages.ts';
import type { CheckedSupply, SupplyInputs } from '../core/operations/check-supply.ts';
import { boreAtLeast } from '../core/oxygen/hose-bores.ts';
import type { Limit, Mend } from '../core/oxygen/supply-check.ts';
import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { QuantityName, UnitSystem } from '../core/units/quantities.ts';
import { showQuantity } from '../core/units/show-quantity.ts';
import type { Column, Output } from './declaration.ts';

/** Values stand in the unit beside them, as in the working of a cell. */
export const SUPPLY_COLUMNS = [
  { heading: 'what' },
  { heading: 'now' },
  { heading: 'at the change' },
  { heading: 'unit' },
  { heading: 'meaning' },
] as const satisfies readonly Column[];

const LIMITS: Readonly<Record<Limit, string>> = {
  cylinder: 'the cylinder is too empty for the setting: a full one would give',
  regulator: 'without its droop and with its valve wide, the regulator would give',
  hose: 'a hose that loses nothing would give',
  holder: 'a holder that loses nothing would give',
  rod: 'nothing before it costs a twentieth of the flow, or the tip pressure wanted is there',
};

/** The table of a checked supply line. */
export function supplyLines(
  { check, air, length, stub }: CheckedSupply,
  inputs: SupplyInputs,
  a: Assumptions,
): readonly (readonly Output[])[] {
  const { system } = a;
  const shown = (x: number, quantity: QuantityName): string => showQuantity(x, quantity, system);
  const row = (
    what: string,
    quantity: QuantityName,
    now: number | null,
    then: number | null,
    meaning: string,
  ): readonly Output[] => {
    const inUnit = (x: number | null): Output => (x === null ? null : fromSi(x, quantity, system));
    return [what, inUnit(now), inUnit(then), plainUnit(quantity, system), meaning];
  };
  const { point, pointAtLeftover: end } = check;
  const gauge = (what: string, now: number, then: number, meaning: string): readonly Output[] =>
    row(what, 'pressure', now - air, then - air, meaning);
  const many = inputs.cylinders === 1 ? 'one cylinder' : `${inputs.cylinders} cylinders together`;
  return [
    row(
      'flow',
      'flow',
      check.flow,
      check.flowAtLeftover,
      `mean over a rod burned from ${shown(length, 'length')} to its stub of ${shown(stub, 'length')}`,
    ),
    gauge(
      'cylinder',
      point.cylinder,
      check.leftover,
      `${many}; changed where the regulator would starve, or at the leftover pressure`,
    ),
    gauge('regulator outlet', point.delivery, end.delivery, 'while oxygen flows, half the rod left'),
    gauge('tip', point.tip, end.tip, "at the end of the hose and the holder's inlet"),
    gauge('behind the holder', point.behindHolder, end.behindHolder, 'where the rod begins'),
    gauge('at the work', point.ambient, end.ambient, 'of the water over it, if any'),
    row('hose loss', 'pressure', point.delivery - point.tip, end.delivery - end.tip, 'with its fittings'),
    row(
      'oxygen until the change',
      'oxygen',
      check.drawn,
      null,
      'drawn from all cylinders, the gas cooling as it is drawn',
    ),
    row(
      'minutes until the change',
      'time',
      check.time,
      null,
      check.time > 0 ? 'of burning' : 'the cylinder is at or below the pressure to leave in it: change it',
    ),
    row('coldest gas', 'temperature', null, check.coldest, 'in the cylinder; its gauge rises again as it warms'),
    ['limit', check.limit, null, '', limitMeaning(check.limit, check.gains)],
    ...mendTexts(check.mends, air, a).map((text): readonly Output[] => ['mend', text, null, '', '']),
  ];
}

function limitMeaning(limit: Limit, gains: CheckedSupply['check']['gains']): string {
  return limit === 'rod' ? LIMITS.rod : `${LIMITS[limit]} ${shown(100 * gains[limit], 2)}% more flow`;
}

function mendTexts(mends: readonly Mend[], air: number, { system }: Assumptions): readonly string[] {
  const up = (x: number, quantity: QuantityName): string => rounded(x, quantity, system, Math.ceil);
  const text = (mend: Mend): string => {
    switch (mend.what) {
      case 'setting':
        return texts.setting(up(mend.setting - air, 'pressure'));
      case 'bore': {
        const common = boreAtLeast(mend.bore);
        return texts.bore(
          rounded(mend.bore, 'length', system, Math.ceil, 3),
          common === undefined ? undefined : showQuantity(common, 'length', system),
        );
      }
      case 'length':
        return texts.length(rounded(mend.length, 'distance', system, Math.floor));
      case 'cylinder':
        return texts.cylinder(up(mend.pressure - air, 'pressure'));
      default:
        return texts[mend.what](up(mend.diameter, 'length'));
    }
  };
  return mends.length === 0 ? [texts.none()] : mends.map(text);
}

/** A value to set or to buy: a few digits, rounded to the side that serves. */
function rounded(
  si: number,
  quantity: QuantityName,
  system: UnitSystem,
  side: (x: number) => number,
  digits = 2,
): string {
  const x = fromSi(si, quantity, system);
  const step = 10 ** Math.min(0, Math.floor(Math.log10(x)) + 1 - digits);
  return `${shown(side(x / step - 1e-9) * step)} ${plainUnit(quantity, system)}`;
}
