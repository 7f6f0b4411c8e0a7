import { mustBeLess, notAbove } from '../messages.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { columnStrength, type ColumnStrength } from './column-strength.ts';

export interface PushCheck {
  /** Push [N]. */
  readonly force: number;
  /** Pin: diameter, bore, length [m]. */
  readonly diameter: number;
  readonly hole: number;
  readonly length: number;
  /** Diameter of the spacers [m]. */
  readonly spacerDiameter: number;
  /** Outside diameter of the boss that takes the reaction [m]. */
  readonly boss: number;
}

export interface PushStrength {
  /** [Pa] */
  readonly modulus: number;
  readonly pinYield: number;
  readonly spacerYield: number;
  readonly bossYield: number;
  /** Effective length of a column over its length. */
  readonly endFactor: number;
  /** Critical load over the load allowed. */
  readonly safetyFactor: number;
  /** Stroke of the ram [m], its oil pressure at full rating [Pa], bulk modulus of the oil [Pa]. */
  readonly stroke: number;
  readonly oilPressure: number;
  readonly oilModulus: number;
  /** Density of the pin [kg/m3]. */
  readonly density: number;
}

/** A stress and what it may be [Pa]; `share` is the one over the other, more than 1 where it is too much. */
export interface Demand {
  readonly stress: number;
  readonly limit: number;
  readonly share: number;
}

export interface PushChecked {
  /** Spacer on the end of the bored pin. */
  readonly bearing: Demand;
  /** Bored pin as a column, at its full length outside the boss. */
  readonly pin: Demand & Pick<ColumnStrength, 'slenderness' | 'rule'>;
  /** Stack of spacers as a column of the pin's length. */
  readonly spacers: Demand & Pick<ColumnStrength, 'slenderness' | 'rule'>;
  /** Face of the boss round the pin, under a frame that bears on all of it. */
  readonly reaction: Demand;
  /** Energy let go when the pin starts all at once [J]: squeezed pin, stack, and oil. */
  readonly energy: { readonly pin: number; readonly spacers: number; readonly oil: number; readonly total: number };
  /** Speed the pin cannot exceed on that energy [m/s]. */
  readonly speed: number;
}

/**
 * What the push does to pin, spacers and boss, and the energy it stores.
 *
 * Bearing F / (pi / 4 (ds^2 - di^2)) against the weaker yield strength; columns against their critical stress over the
 * safety factor; reaction F / (pi / 4 (Do^2 - d^2)) against the boss's yield strength; energy F^2 L / (2 E A) of pin and
 * stack, and p F stroke / (2 K) of the oil; speed sqrt(2 U / m).
 * lengths [m], force [N], stresses [Pa]. The pin in its boss is held sideways, so its column is on the safe side; loose
 * spacers can slip sideways before they buckle. It is no proof that a push is safe: stand clear and restrain the pin.
 * Source: column-strength.ts; strength of materials.
 */
export function pushCheck(push: PushCheck, strength: PushStrength, system: UnitSystem = 'US'): PushChecked {
  const { force, diameter, hole, length, spacerDiameter, boss } = push;
  const {
    modulus,
    pinYield,
    spacerYield,
    bossYield,
    endFactor,
    safetyFactor,
    stroke,
    oilPressure,
    oilModulus,
    density,
  } = strength;
  const show = (x: number): string => showQuantity(x, 'length', system);
  if (!(hole < diameter)) throw mustBeLess('hole', show(hole), `the pin's ${show(diameter)}`);
  if (!(spacerDiameter > hole))
    throw notAbove(
      'spacer diameter',
      show(spacerDiameter),
      `the pin's bore of ${show(hole)}, into which it would slip`,
    );
  if (!(spacerDiameter < diameter))
    throw mustBeLess(
      'spacer diameter',
      show(spacerDiameter),
      `the pin's ${show(diameter)}, or it does not follow the pin`,
    );
  if (!(boss > diameter)) throw notAbove('boss', show(boss), `the pin's ${show(diameter)}`);

  const ring = (outer: number, inner: number): number => (Math.PI / 4) * (outer * outer - inner * inner);
  const demand = (area: number, limit: number): Demand => ({
    stress: force / area,
    limit,
    share: force / area / limit,
  });
  const column = (outer: number, inner: number, yieldStrength: number): PushChecked['pin'] => {
    const { stress, slenderness, rule } = columnStrength({
      diameter: outer,
      hole: inner,
      length,
      endFactor,
      modulus,
      yield: yieldStrength,
    });
    return { ...demand(ring(outer, inner), stress / safetyFactor), slenderness, rule };
  };
  const squeeze = (area: number): number => (force * force * length) / (2 * modulus * area);
  const pinArea = ring(diameter, hole);
  const energy = {
    pin: squeeze(pinArea),
    spacers: squeeze(ring(spacerDiameter, 0)),
    oil: (oilPressure * force * stroke) / (2 * oilModulus),
  };
  const total = energy.pin + energy.spacers + energy.oil;
  return {
    bearing: demand(ring(spacerDiameter, hole), Math.min(pinYield, spacerYield)),
    pin: column(diameter, hole, pinYield),
    spacers: column(spacerDiameter, 0, spacerYield),
    reaction: demand(ring(boss, diameter), bossYield),
    energy: { ...energy, total },
    speed: Math.sqrt((2 * total) / (density * pinArea * length)),
  };
}
