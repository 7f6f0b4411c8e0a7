import type { Page } from '../page.ts';
import { BarFigure } from '../../pane/charts/bar-figure.tsx';
import { LineFigure } from '../../pane/charts/line-figure.tsx';
import { numberIn, rangeOf, textIn } from './figures.ts';
import {
  PIN,
  coolingOfPin,
  coolingOfSizes,
  coolingTimes,
  gripRows,
  loosening,
  ramChances,
  shrinkByHole,
} from './heat-figures.ts';
import { Equation, Fn, Pair, n } from './parts.tsx';

export function heatPage(): Page {
  const grip = gripRows();
  const [before, after] = grip;
  const ratio = PIN.hole / PIN.diameter;
  const [inAir, inWater] = [loosening('air'), loosening('water')];
  return {
    file: 'heat-and-grip.html',
    title: 'Heat and grip',
    lead: 'Burning heats the pin from inside. What is left of it is a hot ring in a cooler boss: how fast it cools, whether it shrinks, and what still holds it.',
    body: (
      <>
        <h2>Cooling</h2>
        <p>
          Heat is followed through rings of pin and boss from the first pass of the rod on, across the seized joint, and
          from there into air or water. A push too early finds a pin that is still wide; that is what the wait is for.
          Bored pins of {PIN.diameter} in by {PIN.length} in, bore {PIN.hole} in, boss {PIN.boss} in:
        </p>
        <Pair>
          <LineFigure plot={coolingOfPin('air')} />
          <LineFigure plot={coolingOfPin('water')} />
        </Pair>
        <p>
          Water on hot metal makes steam in a bore that is open at the ends only: stand clear of both. It does not make
          every pin looser; <Fn name="BURN.COOL.SHRINK" /> says what is left.
        </p>
        <Pair>
          <LineFigure plot={coolingOfSizes()} />
          <LineFigure plot={coolingTimes()} />
        </Pair>
        <Equation
          says="Heat in the rings of pin and boss, solved in small steps of time:"
          formula="ρ c(T) ∂T/∂t = (1/r) ∂/∂r (r k(T) ∂T/∂r);   q = h_joint (T_pin − T_boss) at the joint"
          symbols={`ρ density, c heat capacity and k conductivity of carbon steel, h_joint conductance of the joint (${n(rangeOf('joint conductance').low)} to ${n(rangeOf('joint conductance').high)} W/m²K). Outside: still air and radiation, or water that boils. Sources:`}
          sources={['en 1993-1-2', 'tr-bdf2', 'churchill chu', 'kreith', 'cengel', 'contact resistance']}
        />

        <h2>Shrink</h2>
        <p>
          Hot, the ring presses against the boss with more than it can stand and is squeezed together for good; cold, it
          is smaller. How much is open: it sets in where the ring yields, and heat, pace, the joint and the zone that is
          hot at a time decide that. So the pin's own time at the work is taken, all of them are drawn from their
          ranges, and the middle of the cases is the result. At a bore of {n(ratio)} of the diameter {n(inAir.low, 2)}{' '}
          to {n(inAir.high, 2)} thousandths of an inch come off in eight cases of ten in air, {n(inWater.low, 2)} to{' '}
          {n(inWater.high, 2)} with water; nothing at all in {n(inAir.nothing, 2)} of a hundred in air and in{' '}
          {n(inWater.nothing, 2)} with water.
        </p>
        <LineFigure plot={shrinkByHole()} />
        <Equation
          says="Rings that stretch, press and yield with temperature:"
          formula="ε = ε_elastic + ε_plastic + ε_thermal(T),   σ_eq ≤ k_y(T) f_y"
          symbols="ε strain, σ_eq equivalent stress, f_y yield strength cold, k_y its share left when hot. No creep. Sources:"
          sources={['en 1993-1-2', 'simo hughes', 'timoshenko goodier', 'hill']}
        />

        <h2>Grip left, and the ram</h2>
        <p>
          That {PIN.tried} tons did not move the pin tells something: its grip before the work is more than that. Of all
          the tight, rough and rusty joints that the assumptions allow, those are kept which {PIN.tried} tons would not
          have moved; each is burnt out with a heat from its range and at a pace from the draws of its own work. Before
          the work they hold {n(numberIn(before, 'low'))} to {n(numberIn(before, 'high'))} tons in eight cases of ten,
          half of them under {n(numberIn(before, 'likely'))}; after burning and cooling {n(numberIn(after, 'low'))} to{' '}
          {n(numberIn(after, 'high'))}, half under {n(numberIn(after, 'likely'))} ({textIn(after, 'meaning')}).
        </p>
        <BarFigure plot={ramChances(grip)} />
        <Equation
          says="Force to start the pin:"
          formula="F = π D L (μ p + τ),   p = δ / (D ((k_boss + ν) / E_boss + (k_pin − ν) / E_pin))"
          symbols="D diameter, L length, μ friction, p contact pressure, τ rust bond, δ interference on the diameter, k shape of the rings, E and ν elastic constants. Sources:"
          sources={['lame', 'din 7190-1', 'importance sampling']}
        />
        <p>
          A loaded pin can leave like a shot. Guards, a clear line of push and a hold on the load are the work of
          qualified people at the place; <Fn name="BURN.PUSH.CHECK" /> and <Fn name="BURN.CAUTIONS" /> list what to look
          at.
        </p>
      </>
    ),
  };
}
