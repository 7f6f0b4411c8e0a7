import { noSolution, shown } from '../messages.ts';
import type { Step, Trace } from '../model/trace.ts';
import { ironEnthalpy, splitOxidationHeat, splitOxygenDemand } from './iron-heat.ts';

export interface BurnInputs {
  /** Iron the rod feeds per kg of oxygen, lambda [kg/kg]. */
  readonly feedRatio: number;
  /** Share of the oxygen that burns iron, eta. */
  readonly oxygenBurnt: number;
  /** Share of the burnt iron that ends as FeO, the rest as Fe3O4. */
  readonly monoxideShare: number;
  /** Share of the heat that is lost, f. */
  readonly heatLost: number;
  /** Temperature at which the metal leaves, T [K]. */
  readonly slagTemperature: number;
  /** Heat to bring a kilogram of the work to where it leaves [J/kg]. */
  readonly workHeat: number;
  /** Share of the work that may burn, 0 to 1. */
  readonly workBurns: number;
  readonly workName: string;
  /** Says how `workHeat` came about, after recording the steps before it. */
  readonly recordWorkHeat?: (trace: Trace) => Pick<Step, 'formula' | 'expression' | 'kind' | 'source'>;
}

export interface BurnProcess {
  /** Work removed per kg of oxygen through the rod, k [kg/kg]. */
  readonly removed: number;
  /** Rod iron fed per kg of oxygen [kg/kg]. */
  readonly fed: number;
  /** Iron burnt per kg of oxygen, B [kg/kg]. */
  readonly burnt: number;
  /** Share of all the metal that leaves which has burnt, 0 to 1. */
  readonly burntShare: number;
}

/**
 * Heat balance of burning with an exothermic rod, per kilogram of oxygen through it.
 *
 *     B = eta / D                 iron burnt, D the oxygen demand of the product split
 *     k = [H B (1 - f) - lambda h_Fe(T)] / h_w
 *
 * where H is the heat of burning per kg of iron, h_Fe(T) the heat content of the rod's iron at T and h_w that
 * of the work. Burnt iron can come from the rod and from the share of the work that may burn: where
 * lambda + burns k is less than B, B is limited to it. `#N/A` where nothing is left for the work.
 *
 * Range: T from the melting point of iron (1809 K) to 3000 K.
 * Source: NASA/TP-2002-211556 polynomials for iron and its oxides; the shares are assumptions.
 */
export function burnProcess(inputs: BurnInputs, trace?: Trace): BurnProcess {
  const {
    feedRatio: lambda,
    oxygenBurnt: eta,
    monoxideShare,
    heatLost: f,
    slagTemperature: T,
    workHeat,
    workBurns,
  } = inputs;
  const D = splitOxygenDemand(monoxideShare);
  const H = splitOxidationHeat(monoxideShare);
  const hRod = ironEnthalpy(T);
  const free = eta / D;
  const work = (B: number): number => (H * B * (1 - f) - lambda * hRod) / workHeat;
  // The limit B = lambda + burns * work(B), solved for B; it only binds where burning does not carry itself.
  const carry = (workBurns * H * (1 - f)) / workHeat;
  const limit = carry < 1 ? (lambda * (1 - (workBurns * hRod) / workHeat)) / (1 - carry) : Infinity;
  const B = Math.min(free, Math.max(limit, 0));
  const k = work(B);
  if (!(k > 0)) {
    throw noSolution(
      `with oxygen burnt share ${shown(eta)}, feed ratio ${shown(lambda)} and heat lost share ${shown(f)} the rod's heat only melts the rod: ` +
        `nothing is left to remove ${inputs.workName}; change one of these assumptions`,
    );
  }
  const share = B / (lambda + k);
  // Limited, the share is 1 at most, but for rounding.
  const burntShare = B < free ? Math.min(share, 1) : share;
  if (burntShare > 1) {
    throw noSolution(
      `the assumptions burn ${shown(burntShare)} of the metal that leaves; it cannot be more than 1: lower oxygen burnt share or heat lost share`,
    );
  }
  if (trace) {
    const source = 'nasa polynomials';
    trace.add({
      name: 'oxygen to burn a kilogram of iron',
      symbol: 'D_ox',
      value: D,
      quantity: 'ratio',
      formula: 'from the share of the product that is FeO, rest Fe3O4',
      kind: 'published',
      source,
    });
    trace.add({
      name: 'heat of burning a kilogram of iron',
      symbol: 'H',
      value: H,
      quantity: 'heatPerMass',
      formula: 'from the share of the product that is FeO, rest Fe3O4',
      kind: 'published',
      source,
    });
    trace.add({
      name: 'heat content of rod iron as it leaves',
      symbol: 'h_rod',
      value: hRod,
      quantity: 'heatPerMass',
      formula: 'iron from 25 C to the slag temperature',
      kind: 'published',
      source,
    });
    const heat = inputs.recordWorkHeat?.(trace) ?? {
      formula: 'the work from 25 C to the slag temperature',
      kind: 'published' as const,
      source,
    };
    trace.add({
      name: `heat content of ${inputs.workName} as it leaves`,
      symbol: 'h_work',
      value: workHeat,
      quantity: 'heatPerMass',
      ...heat,
    });
    trace.add({
      name: 'iron burnt for a kilogram of oxygen',
      symbol: 'B',
      value: B,
      quantity: 'ratio',
      formula:
        B < free
          ? 'limited to the rod iron and the share of the work that may burn'
          : 'oxygen burnt share / oxygen to burn a kilogram of iron',
      expression:
        B < free ? '(lambda * (1 - burns * h_rod / h_work)) / (1 - burns * H * (1 - f) / h_work)' : 'eta / D_ox',
      kind: 'calculated',
      source: 'arithmetic',
    });
    trace.add({
      name: 'work metal removed for a kilogram of oxygen',
      symbol: 'k',
      value: k,
      quantity: 'ratio',
      formula:
        '(heat of burning x iron burnt x (1 - heat lost share) - rod feed ratio x heat content of rod iron) / heat content of the work',
      expression: '(H * B * (1 - f) - lambda * h_rod) / h_work',
      kind: 'calculated',
      source: 'arithmetic',
    });
    trace.add({
      name: 'burnt share of the metal that leaves',
      symbol: 'share',
      value: burntShare,
      quantity: 'ratio',
      formula: 'iron burnt / (rod feed ratio + work metal removed); must be between 0 and 1',
      expression: 'B / (lambda + k)',
      kind: 'calculated',
      source: 'arithmetic',
    });
  }
  return { removed: k, fed: lambda, burnt: B, burntShare };
}
