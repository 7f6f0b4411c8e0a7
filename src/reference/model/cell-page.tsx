import type { Page } from '../page.ts';
import { LineFigure } from '../../pane/charts/line-figure.tsx';
import {
  burntShareByOxygen,
  burntShareByTemperature,
  flowByPressure,
  pierceOxygen,
  pinMinutes,
  pinOxygen,
  pinPlans,
  pinRods,
  pressureByDepth,
  removedByOxygen,
} from './burn-figures.ts';
import { numberIn, numberOf, rangeOf, rowsOf, textIn, type Row } from './figures.ts';
import { Cite, Equation, Fn, Pair, n } from './parts.tsx';
import { WrittenSizes } from './written-sizes.tsx';
import { contentByTemperature, cylinder, flowByHose } from './supply-figures.ts';

const PIN = [4, 10] as const;

/** Value of a step of a working, by symbol. */
const step = (rows: readonly Row[], symbol: string): number =>
  numberIn(
    rows.find((r) => r['symbol'] === symbol),
    'value',
  );

function FromPinToQuote({ plan, working }: { readonly plan: Row; readonly working: readonly Row[] }) {
  const of = (symbol: string, digits = 3): string => n(step(working, symbol), digits);
  return (
    <ol>
      <li>
        The bore is planned: {of('ratio')} of the diameter, {of('d')} in. The rod is picked, here {textIn(plan, 'rod')},
        and the tip pressure follows from the depth: {of('p')} psi.
      </li>
      <li>At that pressure {of('m')} scfm of oxygen run through holder and rod.</li>
      <li>
        {n(100 * step(working, 'eta'))} percent of it burns iron, which heats and melts the rod and the pin: {of('k')}{' '}
        lb of pin go for each pound of oxygen.
      </li>
      <li>
        A pilot of {of('w')} in is pierced in {of('t_pierce')} min, then widened in {of('t_rest')} min: {of('M')} lb of
        metal in {of('t')} min of burning.
      </li>
      <li>
        Iron fed over steel in an inch of rod gives {of('l')} in of rod burnt; each rod has {of('usable')} in to give,
        so {of('N')} rods.
      </li>
      <li>
        Oxygen while burning, {of('O_burn')} scf, and what leaks, idles and lights the rods come to {of('O')} scf:{' '}
        {n(numberIn(plan, 'cylinders so far'))} cylinder. The hose asks for {of('p_reg')} psi at the regulator.
      </li>
      <li>
        Burning with its pauses, rod changes, set-up, plates, cooling ({of('t_cool')} min in air), push and clean-up:{' '}
        {of('t_crew')} crew minutes, and a ram of {n(numberIn(plan, 'ram'))} tons.
      </li>
      <li>
        The same is done over again with the assumptions drawn between their low and high: oxygen{' '}
        {n(numberIn(plan, 'oxygen low'))} to {n(numberIn(plan, 'oxygen high'))} scf, crew{' '}
        {n(numberIn(plan, 'crew low'))} to {n(numberIn(plan, 'crew high'))} min in eight cases of ten.
      </li>
    </ol>
  );
}

function NoiseAndAir() {
  const noise = rangeOf('burning noise').value;
  const flow = numberOf('BURN.ROD.FLOW', '3/8 x 36', 100);
  const release = numberOf('BURN.AIR.RELEASE', flow, '3/8');
  return (
    <p>
      At {noise} dBA with bare ears the OSHA rule allows {n(60 * numberOf('BURN.NOISE.HOURS', noise, 'OSHA'))} min of
      burning a day and the NIOSH rule {n(60 * numberOf('BURN.NOISE.HOURS', noise, 'NIOSH'))} (
      <Cite source="osha 1910.95" />, <Cite source="niosh 98-126" />
      ). Of {n(flow)} scfm through a 3/8 rod at 100 psi, {n(release)} scfm go into the air unburnt; in a closed room of
      2000 cu ft the average passes 23.5 percent oxygen after {n(numberOf('BURN.AIR.RISE', 2000, release, 0))} min of
      burning (<Cite source="osha 1910.146" />
      ), and near the work sooner. Measure; these are averages.
    </p>
  );
}

export function cellPage(): Page {
  const [plan] = rowsOf('BURN.PIN.PLAN', ...PIN);
  const working = rowsOf('BURN.PIN.STEPS', ...PIN);
  const plans = pinPlans();
  if (!plan) throw new Error('the plan has no row');
  return {
    file: 'model.html',
    title: 'The model',
    lead: 'How a cell is worked out, from the pin to the quote, in plain words first. Every number and line here was calculated when the page was written, by the functions that stand in the sheet.',
    body: (
      <>
        <h2>From a pin to a quote</h2>
        <p>
          A seized pin of {PIN[0]} in, {PIN[1]} in long, everything else as assumed. <Fn name="BURN.PIN.STEPS" /> shows
          each of these steps with formula and source.
        </p>
        <FromPinToQuote plan={plan} working={working} />

        <h2>Sizes as they are written</h2>
        <WrittenSizes />

        <h2>Oxygen through the rod</h2>
        <p>
          A rod is a steel tube packed with wires. Oxygen squeezes through what is left between them, and the holder's
          valve takes its part before. So the pressure at the holder, the rod's build and its length set the flow, and
          the flow sets the pace of everything after.
        </p>
        <LineFigure plot={flowByPressure()} />
        <Equation
          says="Flow through the passages, the same for rods and hoses:"
          formula="G² = (p1² − p2²) / (Z R T (f L / Dh + K + 2 ln(p1 / p2)))"
          symbols="G flow for each area, p1 and p2 absolute pressures at the ends, Z R T of the gas, f friction factor, L length, Dh hydraulic diameter, K losses of fittings. At most the flow at which it chokes. The holder is a hole in series. Sources:"
          sources={['isothermal pipe flow', 'blasius', 'colebrook', 'orifice flow', 'oxygen equation of state']}
        />

        <h2>The heat balance</h2>
        <p>
          Burning iron is the fire. The rod feeds iron; part of the oxygen burns iron, of the rod and of the pin; the
          heat, less what is lost, brings the rest to the temperature at which it runs out. Nothing more is in it, and
          the three shares in it are not published for exothermic rods: they are ranges.
        </p>
        <LineFigure plot={removedByOxygen()} />
        <Pair>
          <LineFigure plot={burntShareByOxygen()} />
          <LineFigure plot={burntShareByTemperature()} />
        </Pair>
        <Equation
          says="Work removed for each kilogram of oxygen:"
          formula="B = η / D,   k = (H B (1 − f) − λ h(T)) / h_work,   burnt share = B / (λ + k)"
          symbols={`η share of oxygen that burns (${rangeOf('oxygen burnt share').low} to ${rangeOf('oxygen burnt share').high}), D oxygen for a kilogram of iron, B iron burnt, H heat of burning, f share lost, λ iron the rod feeds, h(T) heat to bring iron to T, h_work the same for the work. Source:`}
          sources={['nasa polynomials']}
        />

        <h2>Oxygen for each inch</h2>
        <p>
          Piercing goes at the pace of the heat, but not faster than slag gets out of the hole:{' '}
          {rangeOf('advance limit').value} in a minute at the mouth, half that {rangeOf('advance depth').value} hole
          widths down. Widening goes at the pace of the heat alone.
        </p>
        <Pair>
          <LineFigure plot={pierceOxygen()} />
          <LineFigure plot={pinOxygen()} />
        </Pair>

        <h2>Rods and minutes</h2>
        <Pair>
          <LineFigure plot={pinRods(plans)} />
          <LineFigure plot={pinMinutes(plans)} />
        </Pair>
        <Equation
          says="Rods and oxygen of an item:"
          formula="l = λ m t / μ,   N = up(l / usable length),   O = m t (1 + idle) + N m t_light"
          symbols="l rod burnt, m flow, t burning time, μ steel in a length of rod, N rods, O oxygen. Usable is the length less the stub and less what cannot be burnt at depth; a pierce is counted rod by rod, each of which keeps its stub and the depth. Sources:"
          sources={['common practice', 'navy underwater cutting']}
        />

        <h2>Tip pressure</h2>
        <LineFigure plot={pressureByDepth()} />

        <h2>Hose and cylinder</h2>
        <Pair>
          <LineFigure plot={flowByHose()} />
          <LineFigure plot={contentByTemperature()} />
        </Pair>
        <p>
          Full, such a cylinder gives {n(numberOf('BURN.CYLINDER.CONTENT', cylinder.litres, cylinder.psi, 70, 0))} scf
          down to nothing and {n(numberOf('BURN.CYLINDER.CONTENT', cylinder.litres, cylinder.psi, 70))} down to the
          pressure that is left in; the real gas is counted throughout (<Cite source="oxygen equation of state" />
          ). <Fn name="BURN.SUPPLY.CHECK" /> looks at cylinder, regulator, hose, holder and rod together.
        </p>

        <h2>Noise and air</h2>
        <NoiseAndAir />
        <p>
          How pin and boss heat and cool, and what that does to the grip: <a href="heat-and-grip.html">Heat and grip</a>
          . What the low and high mean: <a href="how-sure.html">How sure</a>. Where all this is off:{' '}
          <a href="limits.html">Limits</a>.
        </p>
      </>
    ),
  };
}
