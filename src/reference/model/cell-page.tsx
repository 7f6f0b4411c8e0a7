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
      <li>
        At that pressure {of('m')} scfm of oxygen run through holder and rod; at the {of('p_widen')} psi of widening,{' '}
        {of('m_widen')}.
      </li>
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
        The same is done over again with the assumptions drawn from their ranges: oxygen{' '}
        {n(numberIn(plan, 'oxygen low'))} to {n(numberIn(plan, 'oxygen high'))} scf, crew{' '}
        {n(numberIn(plan, 'crew low'))} to {n(numberIn(plan, 'crew high'))} min in eight cases of ten.
      </li>
    </ol>
  );
}

const LINES = ['e_burn', 'e_metal', 'e_oxide', 'e_free', 'e_part', 'e_lost', 'e_rest'] as const;

/** The heat balance of the pin, way by way. */
function BalanceTable({ working }: { readonly working: readonly Row[] }) {
  const free = step(working, 'e_burn');
  return (
    <div class="scroll" role="region" aria-label="Heat balance" tabIndex={0}>
      <table class="rows">
        <thead>
          <tr>
            <th scope="col">for a kilogram of oxygen</th>
            <th scope="col" class="number">
              MJ
            </th>
            <th scope="col" class="number">
              percent
            </th>
          </tr>
        </thead>
        <tbody>
          {LINES.map((symbol) => {
            const row = working.find((r) => r['symbol'] === symbol);
            const heat = Math.abs(numberIn(row, 'value')) < 1e-9 ? 0 : numberIn(row, 'value');
            return (
              <tr key={symbol}>
                <th scope="row">{textIn(row, 'step').replace('for a kilogram of oxygen: ', '')}</th>
                <td class="number">{n(heat)}</td>
                <td class="number">{n((100 * heat) / free, 2)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

const PRESSURES = [40, 60, 80, 100, 120, 150] as const;
/** What the trade says that rods take; common practice, no source. */
const TRADE = { 'short rod': '4 to 10; 8 to 10 in normal use', 'long burning bar': '' } as const;

/** Flow of rods over tip pressures, with the trade's range. */
function FlowTable() {
  const lists = PRESSURES.map((psi) => rowsOf('BURN.ROD.LIST', [['pressure', psi]]));
  const rods = (lists[0] ?? []).filter((r) => textIn(r, 'kind') in TRADE);
  return (
    <div class="scroll" role="region" aria-label="Flow of rods over tip pressures" tabIndex={0}>
      <table class="rows">
        <thead>
          <tr>
            <th scope="col">scfm at</th>
            {PRESSURES.map((psi) => (
              <th key={psi} scope="col" class="number">
                {psi} psi
              </th>
            ))}
            <th scope="col">the trade says</th>
          </tr>
        </thead>
        <tbody>
          {rods.map((rod) => {
            const name = textIn(rod, 'rod');
            return (
              <tr key={name}>
                <th scope="row">{name}</th>
                {lists.map((list, i) => (
                  <td key={PRESSURES[i]} class="number">
                    {n(
                      numberIn(
                        list.find((r) => r['rod'] === name),
                        'flow',
                      ),
                      2,
                    )}
                  </td>
                ))}
                <td>{TRADE[textIn(rod, 'kind') as keyof typeof TRADE]}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
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
        <p>
          Mean over the longest stocked rod, burnt from new to its stub, beside what the trade says (common practice, no
          source). Flow goes about as the absolute pressure, which from 40 to 150 psi rises threefold; so no rod can
          keep within both ends of the trade's 4 to 10. At the top an operator throttles the valve at the holder, and
          the rod then takes what it needs rather than what the pressure would drive; the assumption{' '}
          <code>flow factor</code> holds that.
        </p>
        <FlowTable />
        <Equation
          says="Flow through the passages, the same for rods and hoses:"
          formula="G² = (p1² − p2²) / (Z R T (f L / Dh + K + 2 ln(p1 / p2)))"
          symbols="G flow for each area, p1 and p2 absolute pressures at the ends, Z R T of the gas, f friction factor, L length, Dh hydraulic diameter, K losses of fittings. At most the flow at which it chokes. The holder is a hole in series. Sources:"
          sources={['isothermal pipe flow', 'blasius', 'colebrook', 'orifice flow', 'oxygen equation of state']}
        />

        <h2>The heat balance</h2>
        <p>
          Burning iron is the fire. The rod feeds iron; part of the oxygen burns iron, of the rod and of the pin; the
          heat brings metal and oxide to the temperature at which they run out, warms the oxygen that does not burn and
          the part, and is lost by radiation and spatter. The five are drawn up below for each pound of oxygen and leave
          nothing over. The shares in it are not published for exothermic rods: they are ranges, set so that a common
          pin takes an hour and one cylinder (common practice, no source), which was known.
        </p>
        <BalanceTable working={working} />
        <p>
          The navy's hole through concrete was known too: 60 scf lie between low and high, as the table on{' '}
          <a href="limits.html">Limits</a> shows. A bar there burns nearly all of its iron, and its oxide leaves with
          the melt of the concrete, cooler than slag of steel.
        </p>
        <LineFigure plot={removedByOxygen()} />
        <Pair>
          <LineFigure plot={burntShareByOxygen()} />
          <LineFigure plot={burntShareByTemperature()} />
        </Pair>
        <Equation
          says="Work removed for each kilogram of oxygen:"
          formula="B = η / D,   k = (B (H (1 − f) − h_ox + h + D h_O2) − λ h − h_O2) / (h_work + q),   burnt share = B / (λ + k)"
          symbols={`η share of oxygen that burns (${rangeOf('oxygen burnt share').low} to ${rangeOf('oxygen burnt share').high}), D oxygen for a kilogram of iron, B iron burnt, H heat of burning, f share lost, λ iron the rod feeds, h heat that iron holds as it leaves, h_ox its molten oxide, h_O2 unburnt oxygen, h_work the work, q heat left in the part for a kilogram of it. Fusion of Fe3O4 from memory. Source:`}
          sources={['nasa polynomials']}
        />

        <h2>Oxygen for each inch</h2>
        <p>
          Piercing is held up by the heat that removes the metal and by slag that must get out of the hole, at most{' '}
          {rangeOf('advance limit').value} in a minute at the mouth, half that {rangeOf('advance depth').value} hole
          widths down. Neither works alone: slag in the way takes heat, and a pierce that heat holds up fills with slag.
          So the two are blended, and where both would take as long, the pierce takes{' '}
          {n(2 ** (1 / rangeOf('limit sharpness').value), 3)} times that. Widening goes at the pace of the heat alone,
          at a pressure of its own.
        </p>
        <Equation
          says="Time of a pierce:"
          formula="t = ((x / v)ⁿ + (x (1 + x / (2 s)) / c)ⁿ)^(1/n)"
          symbols={`x depth, v advance that the heat allows, c that of slag at the mouth, s the depth at which slag has halved it, n limit sharpness (${rangeOf('limit sharpness').low} to ${rangeOf('limit sharpness').high}, common practice, no source): 1 would add the two, a large one take the slower alone. The form is published for blending two limits of one law; the power and the limits are not. Sources:`}
          sources={['churchill usagi', 'common practice']}
        />
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
          formula="l = λ O_burn / μ,   N = up(l / usable length),   O = O_burn (1 + idle) + N m t_light"
          symbols="O_burn oxygen while burning: flow x burning time, of pilot and widening each; l rod burnt, m mean flow, μ steel in a length of rod, N rods, O oxygen. Usable is the length less the stub and less what cannot be burnt at depth; a pierce is counted rod by rod, each of which keeps its stub and the depth. Sources:"
          sources={['common practice', 'navy underwater cutting']}
        />

        <h2>Tip pressure</h2>
        <p>
          A pin is pierced and then widened. The deeper the pierce, the harder oxygen must push slag out of it; the bore
          being widened is open, and is worked at {rangeOf('widen pressure').value} to{' '}
          {rangeOf('widen pressure top').value} psi, as for severing. <Fn name="BURN.PIN.PRESSURE" />, the plan's tip
          pressure, flow and regulator setting are those of the pierce, which asks more of hose and regulator; oxygen,
          rods and minutes count each at its own.
        </p>
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
