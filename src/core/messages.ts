/**
 * Every message a user can meet in a cell, in one place.
 *
 * `#VALUE!` is for an argument of the wrong kind or outside its physical range, `#N/A` for a name the
 * registers do not know and for a case with no solution. Each message names the argument, says what came
 * with its unit, and what is accepted.
 */
import { CalcError } from './errors.ts';
import { counted } from './units/counted.ts';
import { toFigures } from './units/as-written.ts';
import type { Misread } from './units/parse-quantity.ts';

const value = (message: string): CalcError => new CalcError('#VALUE!', message);
const missing = (message: string): CalcError => new CalcError('#N/A', message);

/** A number in a message: six significant digits at most, no trailing zeros. */
export function shown(x: number, digits = 6): string {
  return String(toFigures(x, Math.min(digits, 6)));
}

/** A share in a message. */
export const percent = (share: number, digits = 2): string => `${(100 * share).toPrecision(digits)}%`;

/** What is to be said, one after the other; nothing of what is empty. */
export const joined = (said: readonly unknown[]): string => said.filter((each) => each !== '').join('; ');

/** Longest text of a cell that a message repeats; a cell can hold a whole page. */
const LONGEST = 60;

/** What came, as far as it is told again. */
function brief(text: string, most = LONGEST): string {
  // A pair of code units is not cut in two.
  return text.length > most ? `${text.slice(0, most).replace(/[\ud800-\udbff]$/, '')}…` : text;
}

/** Units in whose place a text is most often another one, or a fraction. */
const LENGTH_UNITS: readonly string[] = ['in', 'ft', 'mm', 'm'];

// Arguments
export const isMissing = (argument: string): CalcError => value(`${argument} is missing`);
export const isBlank = (argument: string): CalcError => value(`${argument} is blank`);
export const blankOrZero = (argument: string): CalcError => value(`${argument} is blank or zero; must be more than 0`);
export const notANumber = (argument: string, came: string, unit: string): CalcError =>
  value(
    `${argument} is "${brief(came)}"; must be a number${unit ? ` (${unit}), or a text with a unit such as ${LENGTH_UNITS.includes(unit) ? '100 mm or 4-1/2"' : `12 ${unit}`}` : ''}`,
  );
export const tooLow = (argument: string, came: string, limit: string): CalcError =>
  value(`${argument} is ${brief(came)}; must be at least ${limit}`);
export const tooHigh = (argument: string, came: string, limit: string): CalcError =>
  value(`${argument} is ${brief(came)}; must be at most ${limit}`);
export const notAbove = (argument: string, came: string, limit: string): CalcError =>
  value(`${argument} is ${brief(came)}; must be more than ${limit}`);
/** Both ends are worked from, but one of them cannot be got at. */
export const endsNotReached = (name: string, ends: string): CalcError =>
  value(`ends worked is ${ends} and ${name} is one; with one, ends worked must be 1`);
/** A bore right through has two ends. */
export const blindWithBore = (bore: string): CalcError =>
  value(`existing bore is ${bore} and pin ends is one; a bore right through has two ends, so pin ends must be both`);
/** A pin that is open at one end is not pushed through. */
export const blindNotPushed = (): CalcError =>
  value('pin ends is one; a blind pin cannot be pushed through its boss: pull it, or jack it out of its mouth');
export const mustBeLess = (argument: string, came: string, limit: string): CalcError =>
  value(`${argument} is ${brief(came)}; must be less than ${limit}`);
export const isDate = (argument: string, came: string, typed: readonly string[]): CalcError => {
  const [first = ''] = typed;
  return value(
    `${argument} is ${brief(came)}, which looks like a date: the sheet turned a fraction into one. ${typed.join(' or ')}? Type '${first} with a leading apostrophe, or =${first}`,
  );
};
/** The part of a text that cannot be read, and what it could be. */
export const misreadPart = (
  argument: string,
  came: string,
  { problem, part, nearest }: Misread,
  unit: string,
): CalcError => {
  const is = `${argument} is "${brief(came)}"`;
  if (problem === 'no number') return notANumber(argument, came, unit);
  if (problem === 'left over')
    return value(`${is}: "${brief(part)}" is left over; must be one size, such as 100 mm or 4-1/2"`);
  if (problem === 'unknown unit')
    return value(
      `${is}: "${brief(part)}" is no unit here; ${nearest.length > 0 ? `${nearest.join(' or ')}?` : `${unit || 'a plain number'}?`}`,
    );
  return value(
    `${is} with a comma: write it with a point and without parted thousands, or set the assumption decimal mark to comma`,
  );
};
export const diameterInPlace = (argument: string, came: string): CalcError =>
  value(`${argument} is "${brief(came)}", a diameter`);
/** `reason` is the text of the error, where the sheet has kept it. */
export const isErrorValue = (argument: string, came: string, reason = ''): CalcError =>
  value(
    `${argument} holds the error ${came}${reason === '' ? '' : ` (${brief(reason, 2 * LONGEST)})`}; mend that cell first`,
  );
export const eitherMark = (came: string): CalcError =>
  value(
    `"${brief(came)}" has a point, which could part thousands where the decimal mark is a comma: write 1500 or 1,5`,
  );
export const unknownChoice = (argument: string, came: string, accepted: readonly string[]): CalcError =>
  value(`${argument} is "${brief(came)}"; must be one of ${accepted.join(', ')}`);
export const unknownName = (argument: string, came: string, nearest: readonly string[]): CalcError =>
  missing(`${argument} "${brief(came)}" is not in the register; nearest: ${nearest.join(', ')}`);

export const notWhole = (argument: string, came: string): CalcError =>
  value(`${argument} is ${brief(came)}; must be a whole number`);
export const unequalRanges = (one: string, shape: string, other: string, otherShape: string): CalcError =>
  value(
    `${one} is ${shape} and ${other} is ${otherShape}; ranges must have equal sizes, or be one cell, one row or one column`,
  );
export const oneItemOnly = (argument: string, shape: string): CalcError =>
  value(`${argument} is ${shape}; this function takes one item: give a single cell`);
export const tooManyArguments = (count: number, most: number): CalcError =>
  value(`there are ${count} arguments; at most ${most} are taken`);

/** A result that the spreadsheet host cannot take in one piece. */
export const resultTooLong = (rows: number, megabytes: number, most: number): CalcError =>
  value(
    `the result has ${rows} rows and ${shown(megabytes, 2)} MB, more than the host takes at once; split the list: at most ${most} rows a formula`,
  );
export const givenUp = (): CalcError => missing('the calculation was taken back');

export const notFinite = (): CalcError =>
  value('the result is not a number the sheet can hold; please report this formula');
export const fault = (detail: string): CalcError =>
  value(`the calculation failed (${detail}); please report this formula`);

// Rows of `assume`
export const assumeTooNarrow = (): CalcError => value('assume is one column; must be two or more: name, value');
export const inAssume = (row: number, name: string, problem: string): CalcError =>
  value(`assume row ${row}, ${name}: ${problem}`);
export const halfRange = (given: 'low' | 'high', missing: 'low' | 'high'): CalcError =>
  value(`${given} is given without a ${missing}; give both, or head the columns with name, value, ${given}`);
export const drawnAsOne = (): CalcError => value('the two are drawn as one');
export const notDrawnForAll = (name: string): CalcError => value(`${name} is not drawn, or not alike for all items`);
export const contradictoryCorrelations = (): CalcError => value('the correlations in assume contradict each other');
export const unknownAssumption = (row: number, name: string, nearest: readonly string[]): CalcError =>
  missing(`assume row ${row}: "${brief(name)}" is not an assumption; nearest: ${nearest.join(', ')}`);

// Rods
export const stubTooLong = (stub: string, length: string): CalcError =>
  value(`stub is ${stub}; must be less than the rod's ${length}`);
export const rodTooWide = (opening: string, came: string, rod: string, does: string, needs: string): CalcError =>
  value(`${opening} is ${came}; a ${rod} rod ${does} ${needs} wide: choose a thinner rod or a wider ${opening}`);
export const rodTooShort = (rod: string, reaches: string, depth: string): CalcError =>
  missing(
    `a ${rod} rod reaches ${reaches} with its stub; the work is ${depth} deep: take a longer rod, couple rods, or work from both ends`,
  );
export const noRodFits = (opening: string, came: string, rod: string, does: string, needs: string): CalcError =>
  missing(`${opening} is ${came}; the thinnest rod in the register, ${rod}, ${does} ${needs} wide`);
export const noRodFed = (rod: string, flow: string, limit: string): CalcError =>
  missing(`supply flow is ${limit}; the rod that takes least, ${rod}, takes ${flow} at this pressure`);
export const tooManySizes = (count: number, operation: string, names: readonly string[]): CalcError =>
  value(`there are ${count} sizes; ${operation} takes ${names.join(', ')}`);
/** A reason with what is to be asked about the sizes besides. */
export const alsoAsked = ({ code, message }: CalcError, question: string): CalcError =>
  new CalcError(code, `${message}; ${question}`);
export const otherUnit = (unit: string, number: string): string => `if ${unit} was meant, write ${number} ${unit}`;
export const mixedStock = (one: string, other: string): CalcError =>
  value(`stock holds ${one} and ${other}; must be rods of one size, in one or more lengths`);
export const noRodForAccess = (access: string, shortest: string): CalcError =>
  missing(`access length is ${access}; the shortest rod in the register is ${shortest}`);

// Listings and plans
export const nothingFound = (words: string, nearest: readonly string[]): CalcError =>
  missing(`nothing found for "${brief(words)}"; nearest: ${nearest.join(', ')}`);
export const highBeyondReach = (share = 'more than a tenth'): CalcError =>
  missing(`${heatFailsFor(share)}; narrow the assumptions with your own figures`);

// Cases without a solution
export const noSolution = (reason: string): CalcError => missing(reason);

// Sheet engine of the trial workbook and of the command line
export const unexpected = (name: string, thrown: unknown): CalcError =>
  value(
    `${name} failed on this input (${thrown instanceof Error ? thrown.message : String(thrown)}); please report it`,
  );
export const unreadableFormula = (): string =>
  'the formula cannot be taken apart here: it has too many steps, or a name in its LET or LAMBDA is none';
export const circularReference = (cells: readonly string[]): string => `circular reference: ${cells.join(' uses ')}`;
export const noSuchFunction = (name: string, nearest: readonly string[]): string =>
  `there is no function ${name}${nearest.length > 0 ? `; nearest: ${nearest.join(', ')}` : ''}`;
/** Why a result that should spill does not, where it is known. */
export const spillBlocked = (address: string): string =>
  `${address} is in the way of the result: empty it, or move the formula`;
export const spillBeyondSheet = (): string =>
  'the result reaches beyond the edge of the sheet: move the formula up or to the left';
/** A range such as A6:A. */
export const openRange = (range: string): string => `${range} has no last row: give one, as in ${range}500`;

// Exposures and cautions
export const tooManyHours = (hours: number): CalcError =>
  value(`hours add up to ${shown(hours)} h; must be at most 24 h in a shift`);
export const oxygenLevelsOff = (level: number, limit: number): CalcError =>
  missing(
    `by these figures the room's average levels off at ${shown(100 * level)}% oxygen and does not reach ${shown(100 * limit)}%; ` +
      'near the work it is higher: measure',
  );
export const airDoesNotClear = (limit: number, freshAir: number): CalcError =>
  missing(
    freshAir > 0
      ? `fresh air cannot bring the room to ${shown(100 * limit)}% oxygen; the limit must be more than the oxygen of the fresh air`
      : 'without fresh air the room does not clear; fresh air must be more than 0',
  );
export const unknownGauge = (came: string): CalcError =>
  missing(
    `gauge "${brief(came)}" is not a wire gauge the register knows; must be 4/0, 3/0, 2/0, 1/0 or a whole number from 1 to 40`,
  );
export const conditionNeedsValue = (name: string, example: string): CalcError =>
  value(`condition "${name}" needs a value, such as ${name} ${example}`);
export const conditionTakesNoValue = (came: string, name: string): CalcError =>
  value(`condition "${brief(came)}" has a value; "${name}" takes none`);
export const sizesOfOne = (operations: readonly string[]): CalcError =>
  value(
    `items holds sizes, and the operation is ${operations.join(', ')}; sizes need one operation, a PLAN names its own`,
  );

export const itemsTwice = (): CalcError =>
  value('operation is a job list, and items is given too; leave items out, the list says what is burnt');

// Heat, grip and push-out
export const ringsCannotCarry = (): CalcError =>
  missing(
    'pin and boss find no equilibrium: this interference or pressure is beyond what their yield strengths can carry',
  );
export const ramBeyondList = (force: string, most: string, largest: string): CalcError =>
  missing(
    `force is ${force}; the largest ram in the list, ${largest}, is worked to ${most}: burn a larger bore, run water, or push with more than one ram`,
  );
export const gripBeyondPriors = (tried: string, most: string): CalcError =>
  missing(
    `a ram of ${tried} did not move it, but with these assumptions no grip is more than ${most}; raise the high of rust bond, interference or friction`,
  );
export const coolsTooSlowly = (target: string, longest: string): CalcError =>
  missing(`the pin does not cool to ${target} within ${longest}; use water, or a target farther from the surroundings`);

export const targetTooCool = (name: string, target: string, sink: string): CalcError =>
  value(`assumption ${name} is ${target}; must be more than ${sink}`);
export const coolingUnsolved = (): CalcError =>
  missing(
    'the cooling of this pin finds no solution with these assumptions; bring heat into the part, heated zone, joint conductance and boiling flux factor nearer to their defaults',
  );

// Oxygen supply
export const drawnTooFast = (): CalcError =>
  missing(
    'the cylinder is drawn so fast that its gas cools to where oxygen begins to condense and the model ends; draw more cylinders together on a manifold',
  );
export const drawnTooSlowly = (followed: string): CalcError =>
  missing(`so little is drawn that the cylinders last longer than is followed here, ${followed}; draw fewer together`);
export const settingBelowTip = (setting: string, tip: string): CalcError =>
  value(`setting is ${setting}; must be at least the tip pressure of ${tip}`);
export const fillTooHigh = (argument: string, came: string, limit: string, rating: string, at: string): CalcError =>
  value(
    `${argument} is ${came}; must be at most ${limit}, a tenth over the cylinder's rating of ${rating} at ${at}; a higher rating goes in assume as cylinder rating`,
  );
export const hoseCannotPass = (flow: string, largest: string, from: string): CalcError =>
  missing(
    `the hose cannot pass ${flow} from ${from}: its largest flow is ${largest}; take a wider or shorter hose, or a higher setting`,
  );
export const hoseEndChokes = (flow: string, largest: string, tip: string): CalcError =>
  missing(`the hose cannot deliver ${flow} at ${tip}: its end chokes at ${largest}; take a wider hose`);
export const hoseNeedsTooMuch = (flow: string, largest: string, tip: string, highest: string): CalcError =>
  missing(
    `the hose cannot deliver ${flow} at ${tip} with a setting of ${highest} or less: its largest flow is ${largest}; take a wider or shorter hose`,
  );
/** Ways to mend a supply line, for its table. */
export const mends = {
  setting: (pressure: string): string => `set the regulator to ${pressure}, read while oxygen flows`,
  bore: (bore: string, common: string | undefined): string =>
    `take a hose ${bore} wide or wider${common === undefined ? '' : `; the next common bore is ${common}`}`,
  length: (length: string): string => `use no more than ${length} of this hose`,
  cylinder: (pressure: string): string => `put on a fuller cylinder: at least ${pressure}`,
  valve: (diameter: string): string =>
    `take a regulator that passes more: a valve as wide as an orifice of ${diameter}`,
  holder: (diameter: string): string =>
    `open the holder's valve further, or take a holder as wide as an orifice of ${diameter}`,
  none: (): string =>
    'nothing before the rod needs mending; more flow takes a higher setting, or a shorter or wider rod',
};
export const settingBelowWater = (setting: string, water: string): CalcError =>
  value(`setting is ${setting}; must be more than the ${water} of the water at the work`);
export const contentTooHigh = (content: string, limit: string, rating: string): CalcError =>
  value(
    `content is ${content}; must be at most ${limit}, which the cylinder gives when filled to a tenth over its rating of ${rating}`,
  );

// Ranges handed over whole: items, plans, prices, logs
/** A problem of one row of a range, with the row counted from the range's first. */
export const inRow = (range: string, row: number, { code, message }: CalcError): CalcError =>
  new CalcError(code, `${range} row ${row}: ${message}`);
export const noHeading = (range: string, wanted: readonly string[]): CalcError =>
  value(`${range} has no heading row; it needs columns headed ${wanted.join(', ')}`);
export const noColumn = (range: string, heading: string, found: readonly string[]): CalcError =>
  value(`${range} has no column "${brief(heading)}"; its headings are ${brief(found.join(', '), 200)}`);
export const unknownHeadingUnit = (heading: string, came: string, accepted: readonly string[]): CalcError =>
  value(`heading "${brief(heading)}" gives the unit "${brief(came)}"; must be one of ${accepted.join(', ')}`);
export const headingTwice = (range: string, heading: string): CalcError =>
  value(`${range} has two columns headed "${brief(heading)}"; keep one of them`);
export const oneRowOnly = (range: string, rows: number): CalcError =>
  value(`${range} holds ${rows} items; this function takes one: give one row`);
export const noRows = (range: string): CalcError =>
  value(`${range} holds no row to work on; blank and heading rows do not count`);
export const everyRowBad = (range: string, first: CalcError): CalcError =>
  new CalcError(first.code, `no row of ${range} can be used; the first: ${first.message}`);

// Job lists
/** A problem of one row of a job list, which is named by its mark. */
export const inListRow = (mark: string, row: number, { code, message }: CalcError): CalcError =>
  new CalcError(code, `${mark === '' ? `list row ${row}` : brief(mark)}: ${message}`);
/** A problem under a heading whose words the message does not hold. */
export const underHeading = (heading: string, { code, message }: CalcError): CalcError =>
  new CalcError(code, message.replace(/^value /, `${brief(heading)} `));
export const listWithoutHeading = (): CalcError =>
  value(
    'list has no heading row; it needs one such as mark, quantity, diameter, length for pins, with operation and the sizes of the others for mixed work',
  );
export const columnNotRead = (heading: string, nearest: readonly string[]): string =>
  `column "${brief(heading)}" is not read; nearest: ${nearest.join(', ')}`;
export const columnBeside = (heading: string): string => `column "${brief(heading)}" is not read: another like it is`;
export const columnOfTheJob = (heading: string): string =>
  `column "${brief(heading)}" is not read: it holds for the whole job; give it in assume`;
export const noSuchColumn = (name: string, operation: string): CalcError =>
  value(`list has no column "${name}", which ${operation} needs`);
export const operationNeeded = (sizes: readonly string[]): CalcError =>
  value(`operation is blank; only pins go without, and ${sizes.join(', ')} is no size of a pin`);
export const sizesNotUsed = (sizes: readonly string[], operation: string): string =>
  `${sizes.join(', ')} not used: no size of ${operation}`;
export const cautionsOnly = (condition: string, column: string): string =>
  `${condition} brings cautions only: its figures need a column ${column}`;
export const eachSetUp = (): string => 'each is set up by itself; under count, all at once';
export const quantityZero = (): string => 'quantity is blank or zero: 1 is taken';
export const totalOf = (rows: number, pieces: number): string => `${counted(rows, 'row')}, ${counted(pieces, 'piece')}`;
export const totalWithout = (rows: number, all: number, pieces: number): string =>
  `${rows} of ${all} rows, ${counted(pieces, 'piece')}; the others are left out`;
export const leftOutOf = (problems: readonly string[]): string => `left out: ${problems.join('; ')}`;

// Prices
export const unknownPrice = (row: number, name: string, nearest: readonly string[]): CalcError =>
  missing(
    `prices row ${row}: "${brief(name)}" is not a line that can be priced; nearest: ${nearest.join(', ')}; "other ..." adds a sum of your own`,
  );
export const priceTwice = (row: number, name: string, before: number): CalcError =>
  value(`prices row ${row}: ${name} is priced in row ${before} already; keep one of them`);
export const marginAndMarkUp = (): CalcError =>
  value('prices give a margin and a mark-up; keep one: margin is a share of the price, mark-up a share of the cost');
export const quotedAndUsed = (confidence: string): string =>
  `quoted: what is loaded for ${confidence}; used low, used high: what the job takes in eight cases of ten, all lines together`;
export const lowAndHighOff = (low: string, high: string): string => `low +- ${low}, high +- ${high}`;
export const forDraws = (off: string): string => off && `${off} for the number of draws`;
export const forCases = (off: number): string => `; +- ${shown(100 * off, 2)}% for the number of cases`;
export const noPriceFor = (lines: readonly string[]): string => `without ${lines.join(', ')}: no price given`;
export const rangeUnknown = (): string => 'no used high: the plan has a row whose high is beyond reach';

// Job totals
const heatFailsFor = (share: string): string =>
  `in ${share} of the draws from the ranges of the assumptions the heat does not suffice`;
export const confidenceBeyondReach = (confidence: string, unsolved: string): CalcError =>
  missing(
    `${heatFailsFor(unsolved)} for some item, so no load is enough with a confidence of ${confidence}; narrow the assumptions with your own log`,
  );
export const loadInDoubt = (unsolved: string): string =>
  `${heatFailsFor(unsolved)} for some item, so the load is hardly known; take less confidence, or narrow the assumptions with your own log`;

// Schedule
export const notAClock = (came: string): CalcError =>
  value(
    `start is "${brief(came)}"; must be a time of day such as 07:00 or 7:30 pm, with a date before it if wanted: 2026-11-30 07:00`,
  );
export const waitsFor = (name: string): string => `waits for ${name} to cool`;
export const changeAt = (cylinder: number, time: string): string => `cylinder ${cylinder} on at ${time}`;
export const scheduleSum = (work: string, standby: string, breaks: string): string =>
  `work ${work}, waiting ${standby}, breaks ${breaks}`;
export const doesNotFitShift = (needs: string, shift: string): string =>
  `left out: takes ${needs} with its fire watch; does not fit a shift of ${shift}`;
export const itemOverNoiseLimit = (burning: string, allowed: string, rule: string): string =>
  `left out: burns for ${burning}; ${rule} allows one burner ${allowed} in a shift with these protectors: share it, or protect better`;
export const bareNoise = (dose: string, rule: string): string =>
  `without hearing protectors a burner gets ${dose} of the dose that ${rule} allows`;
export const watchUntil = (time: string, rule: string): string => `fire watch until ${time} (${rule})`;
export const jointLoad = (items: string, level: string, within: string): string =>
  `${items}; each line is loaded for ${level} of the cases, so that all suffice together; falls short: +- ${within}; all +- for the number of draws`;
export const plansAddedUp = (): string => 'the plans added up, and the schedule as planned';
export const neverBoth = (): string =>
  'in so many cases the work does not fit the shifts, or the heat does not suffice';
export const worthOfAll = (currency: string, confidence: string, uncertain: boolean): string =>
  uncertain
    ? `${currency === '' ? '' : `${currency}; `}what a quote that covers the cost in ${confidence} of cases loses by not knowing; worths do not add up`
    : 'nothing that is uncertain has a price';
export const losesToOwn = (): string =>
  'the estimates lose to your own jobs: their ratios of noted over estimated alone would have come nearer';
export const cannotVouch = (): string => 'fewer than nine jobs: the log cannot vouch for the range';
export const noRangeVouched = (): CalcError => missing(cannotVouch());
export const rangeNotReached = (): string => 'no widening reaches these jobs; fit them with BURN.LOG.FIT first';
export const vouchedBy = (jobs: number): string => `your log: ${jobs} jobs`;
export const batteryTooSmall = (): CalcError =>
  missing(
    'the battery does not light a single rod at this current; take a larger battery capacity, or a lower strike current or time',
  );

// Things near the work, job sheets
export const thingsTooNarrow = (): CalcError => value('things is one column; must be two: name, distance');

// Logs of finished jobs
export const fittedTo = (jobs: number, error: string, low: string, high: string): string =>
  `your log: ${jobs === 0 ? 'told by other figures' : counted(jobs, 'job')}, standard error ${error}; four in five sure of ${low} to ${high}`;
export const fittedScatter = (jobs: number): string => `your log: scatter of ${counted(jobs, 'job')} about the fit`;
export const correlationsGiven = (): string => 'BURN.ASSUME.DIFF lists them';
export const notOfTheLog = (names: readonly string[]): string => `no longer of the log: ${names.join(', ')}; fit again`;
export const countedTogether = (): string => 'drawn along with others by assume, and counted with them';
export const heldFactor = (): string =>
  'your log: held here, since a log cannot tell it from the fitted ones, which carry its range';
export const widenedFactor = (): string => 'your log: no job with it; widened by what is held';
export const outlier = (weight: string, distance: string): string =>
  `outlier: ${distance} deviations off, counts ${weight}; look whether it was noted rightly, or what was different`;
export const jobsFitted = (jobs: number, scatter: string): string =>
  jobs === 0
    ? 'no job notes rods, oxygen or minutes: everything stays as it was'
    : `${counted(jobs, 'job')} fitted; they scatter ${scatter} of what was assumed`;
export const outliersNamed = (labels: readonly string[]): string =>
  `count less, since they contradict the others: ${labels.join(', ')}`;
export const jobsDisagree = (): string =>
  'the jobs disagree with one another much more than assumed: are they one crew, one gas, one kind of work?';
export const fitUnsettled = (): string => 'the fit did not settle; look for a wild job';
export const rowsLeftOut = (rows: number): string => `${counted(rows, 'row was', 'rows were')} left out, see below`;
export const nothingNoted = (): CalcError =>
  value('log notes no rods, oxygen, burning minutes or crew minutes for any job; nothing can be scored');
export const scoredOnItself = (): string =>
  'the assumptions come from a log: if from these same jobs the score flatters; score jobs that were not fitted';
/** What a score says in words; `off` is how far the typical job is from its estimate. */
export const verdict = (word: string, off: string): string =>
  ({
    'too low': `estimates run low: the typical job took ${off} more, beyond chance`,
    'too high': `estimates run high: the typical job took ${off} less, beyond chance`,
    'too narrow': 'low and high stand too close together: more jobs fall outside than claimed, beyond chance',
    'too wide': 'low and high stand farther apart than need be',
    'too few jobs': 'too few jobs to tell',
  })[word] ?? 'as claimed, within chance';
