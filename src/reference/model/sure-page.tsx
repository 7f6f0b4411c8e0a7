import { REGISTRY } from '../../core/assumptions/registry.ts';
import { isChoice } from '../../core/assumptions/assumption.ts';
import { DRAWS } from '../../core/operations/spread-item.ts';
import type { Page } from '../page.ts';
import { BarFigure } from '../../pane/charts/bar-figure.tsx';
import { LineFigure } from '../../pane/charts/line-figure.tsx';
import { numberIn, rowsOf, textIn, type Row } from './figures.ts';
import { Cite, Equation, Fn, Pair, n } from './parts.tsx';
import {
  CREW,
  PIN,
  SCATTER,
  coolingOfPlan,
  coverage,
  drawnForPin,
  effects,
  learning,
  learningPlot,
  oxygenChance,
  burntShareDrawn,
  tornado,
  truth,
  vouched,
  worthAndJoint,
} from './sure-figures.ts';

const inside = (row: Row): string => `${n(numberIn(row, 'inside low to high'), 2)} percent`;

export function surePage(): Page {
  const [plan] = rowsOf('BURN.PIN.PLAN', ...PIN);
  const rows = effects();
  const learnt = learning();
  const real = truth();
  const { before, after, jobs } = coverage();
  const ranges = vouched();
  const numbers = REGISTRY.filter((entry) => !isChoice(entry));
  const practice = numbers.filter((entry) => entry.kind === 'common practice').length;
  const drawn = drawnForPin();
  const { best, everything, joint } = worthAndJoint();
  const { planned, hot } = coolingOfPlan();
  const crewTime = tornado(rows, 'crew time', 'min');
  const undrawn = crewTime.bars.map((b) => b.name).filter((name) => !drawn.includes(name));
  const [first, last] = [learnt[0], learnt.at(-1)];
  if (!first || !last) throw new Error('nothing was learnt');
  return {
    file: 'how-sure.html',
    title: 'How sure',
    lead: 'What the low and the high of an estimate mean, where they come from, what narrows them, and what nobody has shown yet.',
    body: (
      <>
        <h2>One meaning of low and high</h2>
        <p>
          An <strong>assumption's</strong> value is its middle: as often too low as too high. One case in ten lies below
          its low, one in ten above its high (P10, P50 and P90). An <strong>estimate's</strong> low and high mean the
          same, drawn from all assumptions together: one case in ten takes less than the low, one in ten more than the
          high. For a pin of {PIN[0]} in by {PIN[1]} in that is {n(numberIn(plan, 'oxygen low'))} to{' '}
          {n(numberIn(plan, 'oxygen high'))} scf about {n(numberIn(plan, 'oxygen'))}. The figure in the middle is what
          the assumptions' own values give, not an average; the upper side is the longer one.
        </p>
        <Pair>
          <LineFigure plot={burntShareDrawn()} />
          <LineFigure plot={oxygenChance()} />
        </Pair>
        <p>
          Each estimate takes {DRAWS} draws, always the same ones, so a cell repeats. Pins of one job share the draws of
          what they share, the crew, the gas and the rods: if the first pin is thirsty, so are the others, and a list
          does not average its risk away. <Fn name="BURN.JOB.STOCK" /> uses that.
        </p>
        <p>
          A plan of 1,000 different items or more is worked out in columns. Its low and high of pins and holes are read
          between sizes that are solved, a twelfth of a power of e apart (a sixth where three sizes vary), in the
          logarithms. Beside the same item alone 19 of 20 stand within 0.6 %, all within 2 %, and rods low and high are
          at most one off; percentiles of {DRAWS} draws are themselves only sure to some 2 %. What is planned agrees
          within 3e-7. Groove, cut, stud and breach have their exact low and high in long lists too, since passes, holes
          and starts are counted whole and low and high jump with them. An item that stands at the edge of what its rod
          can do is always worked out by itself.
        </p>
        <Equation
          says="The curve an assumption is drawn from:"
          formula="y = B + h z / c ± (√(a² + (h² − a²) (z / c)²) − a)"
          symbols="y is ln((x − least) / (most − x)) of the value drawn, with the physical limits; L, B and H are those of low, value and high; h = (H − L) / 2; a the smaller of B − L and H − B; c = 1.2816; z a standard normal number; plus where the upper half is the wider. The three percentiles hold exactly and no limit is passed. Draws spread evenly, by a scrambled sequence. Sources:"
          sources={['hadlock bickel', 'sobol', 'percentile']}
        />

        <h2>Where the ranges come from</h2>
        <p>
          Where a source prints usual values, its ends stand as low and high. Where it prints extremes, they are no P10
          and P90: those lie about half as far out, counted in factors, and rounded to what a person would write; so do
          those of common practice that had been thought of as the ends of what can be. The physical limits beside them
          are what the call refuses to pass. A low equal to the value means that half of the cases stand at it, as with
          hose fittings; both equal mean that it is certain, or yours to set. The holder's 0.065 to 0.11 in are
          extremes, and its low and high lie inside; so are 1 to 3.5 psi an inch for the pressure's rise. The purity's
          99.2 to 99.7 percent are what filling stations deliver, and stand.
        </p>
        <p>
          Of what bears on the work, a range without a source leans to neither side in what it does: with that
          assumption alone uncertain, oxygen and time come out as many times more as less, to a sixth of the sum of
          both. Nobody has measured that a job goes wrong further than it goes well. So minutes and losses, which add
          up, are about even in themselves, and what oxygen or time is divided by in its inverse. Exceptions: passes of
          a groove are whole and one at least; the share of FeO and the steel in concrete do least at their values. The
          low ends of a bar's feed and of the advance that slag allows stayed when the other ends moved, since published
          times and oxygen for bars lie to the slow side. Heat to melt concrete leans as its sources do. What only a
          pin's cooling rests on is held to the same in the cooling and in the crew time with it: in a thin boss, or
          with a cool target, a pin cools for an hour and not in minutes, so the ends on that side lie nearer to the
          value. With water each of them moves a crew's time by less than half a percent.
        </p>
        <p>
          Factors of the crew go up and down together: who is slow at one task is slow at all, and burns less of the
          time. It errs on the wide side. So do a burning bar's feed and the share of its oxygen that burns, for it
          feeds its own fire: it melts back as it burns. The other factors of burning are drawn each by itself. That a
          short rod which burns more of its oxygen melts faster is likely, but how far nobody has published; drawn
          together the two would make up for each other, and the oxygen's range would be narrower than what is known. A
          log tells it.
        </p>
        <h2>Whether the figure is the middle</h2>
        <p>
          With one assumption uncertain the figure worked out is exactly the middle. With all of them it is about that:
          over a sweep of pins, holes, grooves, cuts, studs and breaches all 225 figures lie between the 40th and the
          60th percentile of their own draws, and forty-nine of fifty with other sizes, cast iron, stainless steel,
          concrete and cooling with water. A plain sum of figures runs short of each thing about every second time, and
          of one or another 17 times in 20: load by <Fn name="BURN.JOB.STOCK" />.
        </p>

        <h2>Which assumptions matter</h2>
        <p>
          {practice} of the {numbers.length} assumptions with a number are common practice: no published source was
          found, and the range is what counts. Few of them move a quote:
        </p>
        <Pair>
          <BarFigure plot={tornado(rows, 'oxygen', 'scf')} />
          <BarFigure plot={crewTime} />
        </Pair>
        <p>
          For oxygen it is the share that burns; for time it is whether the pin has to wait until it has cooled. Settle
          these first, from your own jobs.
        </p>
        <p>
          Not all of them are in the low and high. A pin's estimate draws {drawn.length} assumptions, those of burning,
          flow, crew and cooling; what you decide, such as the bore, is not drawn. The cooling is solved in a few worlds
          for pins of a table, and each draw takes the times of the worlds most like it: {n(planned)} min as planned
          here, {n(hot)} min with much heat in the part. Of the bars on crew time these stand outside of its low and
          high: {undrawn.join(', ')}. Chosen rods and ways stay as planned in all draws.
        </p>

        <p>
          <Fn name="BURN.ASSUME.EFFECT" /> has two more columns beside the bars: the share of all that is uncertain that
          an assumption brings in by itself (first index), and with all that it does together with others (total index;{' '}
          <Cite source="sobol indices" />
          ). <Fn name="BURN.ASSUME.WORTH" /> puts money to it: for two pins at invented prices, measuring{' '}
          {textIn(best, 'measure')} before the job is quoted is worth {n(numberIn(best, 'worth'))} of the{' '}
          {n(numberIn(everything, 'worth'))} that knowing everything would be (<Cite source="strong evppi" />
          ).
        </p>

        <h2>Cost and time together</h2>
        <p>
          A budget and a date that each hold in eight cases of ten do not both hold in eight of ten.{' '}
          <Fn name="BURN.JOB.JOINT" /> counts both over the same draws: with {n(numberIn(joint, 'cost'))} and{' '}
          {n(numberIn(joint, 'hours'))} hours for the same two pins the cost holds in{' '}
          {n(numberIn(joint, 'cost holds'), 2)} percent, the time in {n(numberIn(joint, 'time holds'), 2)}, both in{' '}
          {n(numberIn(joint, 'both hold'), 2)}, plus or minus {n(numberIn(joint, 'plus or minus'), 2)} for {DRAWS} draws
          (<Cite source="jcgm 101" />
          ).
        </p>

        <h2>What a log does</h2>
        <p>
          <Fn name="BURN.LOG.FIT" /> takes your finished jobs and moves the assumptions toward them. Here a crew is made
          up that burns {n(CREW[0][1] * 100)} percent of its oxygen, with its own pauses and set-up and a scatter of{' '}
          {n(100 * SCATTER)} percent from job to job. The estimate for the pin starts at {n(first.low)} to{' '}
          {n(first.high)} scf; after {last.jobs} jobs it says {n(last.low)} to {n(last.high)}, about {n(last.middle)},
          where this crew really takes {n(real)}.
        </p>
        <LineFigure plot={learningPlot(learnt, real)} />
        <p>
          The fitted factors are handed back as rows, each with its own range. What two of them do together a log often
          tells better than each: more oxygen burnt and more heat left in the part come to the same oxygen. So rows such
          as <code>correlation of oxygen burnt share with heat into the part</code> come with them, between -1 and 1,
          and as <code>assume</code> they draw the two along with each other (<Cite source="copula" />
          ); you may write such rows yourself. Put another value in place of a fitted one and its correlations no longer
          fit: <Fn name="BURN.ASSUME.DIFF" /> names them. How long the pins cooled is not taken for known either: the
          draws fall into a few cases, from minutes to an hour, and the likeliest for the log holds. Defaults and jobs
          are weighed against each other as in <Cite source="bayes" />; a job that contradicts the rest counts less and
          is named (<Cite source="huber" />
          ).
        </p>

        <h2>How often is it right?</h2>
        <p>
          Of {jobs} other jobs of that same made-up crew, {inside(before)} took an amount of oxygen between the low and
          high of the defaults, and {inside(after)} between those after its log. Eight in ten is what a low and high
          claim, but jobs of one crew are right or wrong together: this is one trial, not thirty.{' '}
          <Fn name="BURN.LOG.SCORE" /> says of the first “{textIn(before, 'verdict')}” and of the second “
          {textIn(after, 'verdict')}”. It also scores the whole distribution (<Cite source="crps" />
          ) against the plainest forecast there is, the ratios of noted over estimated of your other jobs, and says when
          the estimates lose to it; and from nine jobs on it gives the range that those ratios vouch for whatever the
          model (
          <Cite source="conformal" />
          ).
        </p>
        <p>
          <Fn name="BURN.LOG.RANGE" /> hands such a range back as rows of <code>assume</code>, one a figure, such as{' '}
          <code>range of oxygen</code>: so many times as far as is drawn stands every draw from the plan, in the
          logarithm. Low, high, other percentiles, chances and totals follow, in plans and job functions alike; the plan
          itself stays. The first thirty jobs of that crew, with the defaults, make it {n(ranges.by)}: the pin's oxygen
          then is {n(ranges.low)} to {n(ranges.high)} scf. In 300 logs of twelve jobs that take 1.4 times what the model
          says, and one of four twice that, 36 percent of new pins came out within the low and high claimed for oxygen,
          78 percent within those (34 and 78 for crew time). It leaves the middle where it is: fit for that, and take
          the range from jobs that were not fitted, since those that were are held against it too kindly (74 percent for
          crew time).
        </p>
        <p>
          <strong>That shows that the arithmetic holds together, no more.</strong> The jobs were made by the model
          itself. No set of real finished jobs was at hand, so nobody knows yet how many real jobs fall between the low
          and the high with the defaults. A model that is wrong in kind is wrong in all its draws. Until a log of your
          own is in, treat the range as the least doubt there is.
        </p>
      </>
    ),
  };
}
