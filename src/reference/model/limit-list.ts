/** What the model does not know, each with what it does to a figure, worked out when the page is written. */
import { Assumptions } from '../../core/assumptions/assumptions.ts';
import type { NumberName } from '../../core/assumptions/registry.ts';
import { steelConductivity } from '../../core/heat/steel-conductivity.ts';
import { numberText as n } from '../../pane/charts/number-text.ts';
import { usualLength } from './burn-figures.ts';
import { maybeNumber, numberIn, numberOf, rangeOf, rowsOf } from './figures.ts';
import { gripRows, loosening, PIN, shrink } from './heat-figures.ts';
import { rodFlowEnds } from './published-checks.ts';
import { coolingOfPlan, fittedRows, inventedLog } from './sure-figures.ts';

/** Conductivity of the stainless shaft in Cengel and Ghajar's chapter 4 [W/m K]. */
const STAINLESS = 14.9;

export interface Limit {
  readonly what: string;
  readonly why: string;
  /** What it does, with figures. */
  readonly does: string;
}

/** An assumption's low and high as rows of `assume`, in its own unit. */
const atEnds = (
  name: NumberName,
): readonly [readonly (readonly [string, string | number])[], readonly (readonly [string, string | number])[]] => {
  const { low, high, unit } = rangeOf(name);
  const row = (x: number): readonly (readonly [string, string | number])[] => [
    [name, unit === '' ? x : `${x} ${unit}`],
  ];
  return [row(low), row(high)];
};

const coolingAt = (name: NumberName, method: 'air' | 'water' = 'air'): readonly [string, string] => {
  const [low, high] = atEnds(name).map((assume) =>
    maybeNumber('BURN.COOL.TIME', PIN.diameter, PIN.hole, PIN.length, method, null, assume),
  );
  const text = (x: number | undefined): string => (x === undefined ? 'no solution' : `${n(x)} min`);
  return [text(low), text(high)];
};

/** Largest departure of a plan's cooling from BURN.COOL.TIME over pins of many sizes. */
export function coolingInterpolation(): { readonly most: number; readonly minutes: number; readonly at: number } {
  const found = [2, 2.7, 3.3, 4, 4.7, 5.5, 6.5, 8].map((d) => {
    const [plan] = rowsOf('BURN.PIN.PLAN', d, usualLength(d));
    const exact = numberOf('BURN.COOL.TIME', d, numberOf('BURN.PIN.HOLE', d), usualLength(d));
    const minutes = numberIn(plan, 'cooling') - exact;
    return { most: minutes / exact, minutes, at: d };
  });
  return found.reduce((a, b) => (Math.abs(b.most) > Math.abs(a.most) ? b : a));
}

export function limits(): readonly Limit[] {
  const zone = rangeOf('heated zone');
  const ratio = PIN.hole / PIN.diameter;
  const [inAir, inWater] = [loosening('air'), loosening('water')];
  const [before, after] = gripRows();
  const [jointLow, jointHigh] = coolingAt('joint conductance');
  const [bossLow, bossHigh] = coolingAt('boss over pin');
  const [filmLow, filmHigh] = coolingAt('film boiling limit', 'water');
  const [bondLow, bondHigh] = atEnds('rust bond').map((assume) =>
    n(numberOf('BURN.GRIP.FORCE', PIN.diameter, PIN.length, 0.001, PIN.boss, null, assume)),
  );
  const flows = rodFlowEnds();
  const fume = rangeOf('fume factor');
  const free = rangeOf('unburnt oxygen temperature');
  const atFree = (kelvin: number): number =>
    numberOf('BURN.PIN.OXYGEN', 4, 10, null, null, null, [['unburnt oxygen temperature', kelvin]]);
  const table = coolingInterpolation();
  const { planned, hot } = coolingOfPlan();
  const learnt = rowsOf('BURN.LOG.SCORE', inventedLog(30, 21), fittedRows(inventedLog(30, 20))).find(
    (r) => r['figure'] === 'oxygen',
  );
  const joint = rangeOf('joint conductance');
  const boss = rangeOf('boss over pin');
  const film = rangeOf('film boiling limit');
  const bond = rangeOf('rust bond');
  return [
    {
      what: 'How fast the heat goes in',
      why: "Heating follows the pin's own time at the work, spread evenly over its two passes; no record of the temperatures of a pin while it burns was found. The zone that is hot at a time decides how sharp the heat is.",
      does: `A pin of ${PIN.diameter} in bored ${PIN.hole} in loosens by ${n(shrink(ratio, 'air', zone.low) ?? 0, 2)} thousandths of an inch where ${zone.low} in are hot at a time; where ${zone.high} in are, by ${n(shrink(ratio, 'air', zone.high) ?? 0, 2)}.`,
    },
    {
      what: 'Whether the pin loosens at all',
      why: 'Loosening sets in where the hot ring yields, and the assumptions straddle that: some pins lose more than all of their interference, many nothing. So it is drawn, and the chance is shown.',
      does: `Nothing loosens in ${n(inAir.nothing, 2)} of a hundred cases of that pin in air, in ${n(inWater.nothing, 2)} with water; one in ten loosens by more than ${n(inAir.high, 2)} thousandths in air.`,
    },
    {
      what: 'A ram of half the one that failed',
      why: 'Common practice has it that a bored, cooled pin comes out with about half the ram that had failed. Three things halve the force here: the lost core makes the pin give (a third of the pressure), rust bond left after burning (four tenths), and what loosens. But a push that failed says only that the grip was more; with nothing else known it is taken to be as much more as the ranges of rust and interference allow, while crews bring the largest ram they have to pins that look like moving. The boss as a full ring of steel holds tighter than a lug. The ranges were set with the practice known, and not moved to meet it.',
      does: `A push of ${PIN.tried} tons that failed leaves ${n(numberIn(after, 'likely'))} tons in the middle, ${n(numberIn(after, 'low'))} to ${n(numberIn(after, 'high'))} in eight cases of ten: ${n(numberIn(after, 'likely') / numberIn(before, 'likely'), 2)} of the force before.`,
    },
    {
      what: 'Conductance of the seized joint',
      why: 'Measured joints are clean; none with rust was found. It may also open as the pin cools, which is not followed.',
      does: `From ${n(joint.low)} to ${n(joint.high)} W/m²K such a pin cools in ${jointLow} or in ${jointHigh}.`,
    },
    {
      what: 'Boss round the pin',
      why: 'A boss is taken as a round ring. Arms and webs carry heat away, thin lugs do not, and a stiff frame holds tighter.',
      does: `A boss of ${boss.low} pin diameters cools in ${bossLow}, one of ${boss.high} in ${bossHigh}.`,
    },
    {
      what: 'Strength of the rust bond',
      why: 'No measurement was found. It hangs on the metal, the time and the weather.',
      does: `From ${n(bond.low)} to ${n(bond.high)} psi, a pin 0.001 in tight starts at ${bondLow ?? ''} or at ${bondHigh ?? ''} tons before the work. A push that was tried says more than any assumption.`,
    },
    {
      what: 'When a film of steam breaks',
      why: 'The wall temperature above which water does not touch the steel has no firm source for scaled bores and running water.',
      does: `From ${film.low} to ${film.high} F water cools the pin in ${filmLow} or in ${filmHigh}.`,
    },
    {
      what: 'All metal cools as carbon steel',
      why: 'Heat capacity, conductivity and strength of pin and boss are those of carbon steel whatever the material of the work.',
      does: `Cold carbon steel conducts ${n(steelConductivity(Assumptions.defaults().value('ambient temperature')))} W/m K, a stainless steel of a textbook's example ${STAINLESS} (Cengel and Ghajar, chapter 4): it cools slower than the figures say. Hardening where hot steel is quenched is left out.`,
    },
    {
      what: 'Heat along the pin, and creep',
      why: 'Each section of the pin is followed by itself; heat does not flow along it. Hot steel that gives way slowly under stress is left out.',
      does: 'What the end faces lose is spread over the length: the ends cool faster than said, the middle slower. Slow yielding would loosen the pin more than said.',
    },
    {
      what: 'Cooling in the low and high of the crew',
      why: 'Low and high draw the cooling from sixteen solved worlds for each pin of a coarse table; a draw takes the time of the worlds most like it.',
      does: `One case in ten of a cooling so drawn stands within some 15 percent of that of 512 solved worlds. A pin of 4 in by 10 in is planned with ${n(planned)} min in air; with the high of the heat left in the part it is ${n(hot)} min, and the crew's high counts that. The pace of burning stays as planned.`,
    },
    {
      what: 'How the heat of burning divides',
      why: 'What is set free leaves with metal and oxide, with unburnt oxygen, into the part, by radiation and spatter; the five add up (BURN.PIN.STEPS shows them). How hot the unburnt oxygen leaves, and how much of it burns, cannot be told apart from outside.',
      does: `Oxygen that leaves at ${n(free.low)} or ${n(free.high)} K in place of ${n(free.value)} takes ${n(atFree(free.low), 2)} or ${n(atFree(free.high), 2)} scf for a 4 by 10 in pin. Before, hot oxygen, the heat of the oxide beyond plain iron, and the heat left in the part stood in one loss of 20 to 40 percent, and their sum was more than all the heat; the share of oxygen that burns was set anew with them, to remove about the same steel.`,
    },
    {
      what: 'Cast iron and rock with burning bars',
      why: "Every melt has the same limit on how fast slag gets out. It stands at about the middle of its range, 10 to 30 in a minute; at 24 once, where narrow deep holes took less than any print has, then at 16. Since heat and slag are blended a pierce only comes near the limit, so it was set somewhat higher, to 18; the navy's hole and the handbook's were known, and moved from 62.5 to 65 scf, from 3.6 to 3.3 m3 in concrete and from 4.3 to 4.6 in cast iron.",
      does: "A trade handbook has up to twice our oxygen for cast iron and three to six times for rock: see the table. The plan's note says so.",
    },
    {
      what: 'Flow at the ends of the pressures',
      why: 'Flow follows from the build of the rod, which is common practice, and from one hole for the holder.',
      does: `At 40 psi the smallest rod passes as little as ${n(flows.least, 2)} scfm and at 150 psi the largest as much as ${n(flows.most, 2)}, where the trade speaks of 4 to 10 for all: at the top an operator throttles. Before, one wider hole stood for the holders of short rods and of bars alike, and a pin was widened at the pressure of its pierce: a common pin was then planned at 13.6 scfm, and bars of 1/4 and 3/4 pipe took nearly the same.`,
    },
    {
      what: 'Fume',
      why: 'No published factor for exothermic rods was found; arc electrodes bracket it.',
      does: `From ${fume.low} to ${fume.high} percent of the metal goes into the air: an order of magnitude. Only an air sample in the breathing zone tells.`,
    },
    {
      what: 'Rows from a log know of pairs alone',
      why: 'Fitted factors go back as a range each and a correlation for each two. How long pins cool is told as one figure with a range to both sides, though most cool in minutes and some in an hour.',
      does: `For a made-up crew, ${n(numberIn(learnt, 'inside low to high'), 2)} percent of its next jobs took an amount of oxygen between low and high, where eight in ten are claimed. Of 1,200 pins of 300 crews drawn from the assumptions, each after a log of 12, 82 percent came out inside for oxygen, 83 for burning and 80 for crew time (npm run bench coverage).`,
    },
    {
      what: 'Cooling in a plan is read from a table',
      why: 'A list of pins must not take seconds, so plans read between worked-out sizes.',
      does: `Over pins from 2 to 8 in the worst plan was off by ${n(100 * Math.abs(table.most), 2)} percent (${n(Math.abs(table.minutes), 2)} min, at ${table.at} in). BURN.COOL.TIME works it out in full.`,
    },
    {
      what: 'A crew that differs',
      why: "Skill, wind, a wet rod, a pin that is not steel right through: the spread has an item's own scatter and no more.",
      does: 'See How sure: no real finished jobs were at hand.',
    },
  ];
}
