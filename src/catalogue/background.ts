import { OPERATION_IDS, operationOf, type OperationId } from '../core/operations/all.ts';

/** What stands behind the figures of a function, in plain words, for its page of the reference. No host loads it. */
export interface Background {
  /** How they are worked out. */
  readonly how: string;
  /** Where that holds. */
  readonly holds: string;
  /** What it does not count. */
  readonly leavesOut: string;
  /** Formulas that have no result, where the reason is more than a single wrong argument. */
  readonly fails?: readonly string[];
}

const BURNING =
  'Oxygen through the rod burns a share of itself with iron of the rod and of the work. The heat of that, from published data for iron and its oxides, less the share lost, heats rod and work metal to the temperature at which slag leaves. So each unit of oxygen removes so much metal, and the flow through the rod at its tip pressure gives the rate.';
const SHARES =
  'The shares of oxygen burnt and heat lost, the iron a rod feeds and the temperature of slag are common practice without a source; their ranges are wide, and low and high of an estimate show it.';
const UNSEEN = 'Cracks, laminations, wet or painted steel, and an operator who is new to it.';

interface OperationWords {
  readonly geometry: string;
  readonly pressure: string;
  readonly holds: string;
  readonly leavesOut: string;
  readonly fails: string;
}

const OPERATION_WORDS: Readonly<Record<OperationId, OperationWords>> = {
  PIN: {
    geometry:
      "A pilot is pierced along the axis at the rod's own width, held up by its heat and by slag getting out of it; then the pilot is widened to the bore, which heat alone limits, at a lower pressure where the pierce is deep. Tip pressure, flow and regulator setting of a plan are those of the pierce. An existing bore is metal less: the part of the pilot that it takes up needs no piercing. A blind pin is burnt down to a floor, more slowly, since all slag has to come back out of its mouth.",
    pressure:
      'A pierce is driven with more pressure the deeper it goes, from one end or from both as assumed, up to a top; common practice. This is the pressure of the pierce; widening has its own, 70 to 90 psi, in BURN.PIN.STEPS.',
    holds:
      'Against common practice: an hour and one cylinder for a pin of 4 by 10 in lies within low and high, and pins down to 3/4 in can be pierced with the small rods. No published job was found to check it against.',
    leavesOut:
      'A pilot that drifts off the axis (BURN.GUARD.PLATES looks at that), oxygen that an old bore lets through, cross holes, and a bore that reaches the boss.',
    fails: '(4,10,5)',
  },
  HOLE: {
    geometry:
      'The rod is led round, so that the hole is pierced at its own width; slag leaves through all of it and holds up the advance besides the heat, more with depth. What the taper adds is melted besides.',
    pressure: 'A pierce is driven with more pressure the deeper it goes, up to a top; common practice.',
    holds:
      'Against a trade handbook for deep narrow holes with bars, read as a copy: oxygen for a metre of hole in concrete agrees, in cast iron it is half and in rock a quarter of what is published.',
    leavesOut: 'Blow-back from blind holes, and the quality of the wall.',
    fails: '(0.2,6)',
  },
  GOUGE: {
    geometry:
      'A groove of half-elliptical section, somewhat more than asked for, in passes side by side and one below the other; heat alone limits it.',
    pressure: 'From the lowest to the highest with the section to remove, 40 to 90 psi; common practice.',
    holds: 'Grooves and welds in steel at the surface. No published job was found to check it against.',
    leavesOut: 'Preheat, and grinding the groove clean.',
    fails: '(0.1,0.5,24)',
  },
  CUT: {
    geometry:
      'Either a kerf as wide as the rod makes it, wider where a thick section is sawed, or a row of holes with the rest broken out; of the two the quicker, unless one is named.',
    pressure: 'Rises with thickness, 70 to 90 psi; common practice.',
    holds:
      'Plate and sections of steel and cast iron, severed in air or under water. No published job was found to check it against.',
    leavesOut: 'Breaking out what stands between holes, and turning or holding the part that falls.',
    fails: '(20,24,"3/16 x 18")',
  },
  STUD: {
    geometry: 'A kerf through each bar, as wide as the rod makes it, and lighting anew at each.',
    pressure: 'Rises with thickness, 70 to 90 psi; common practice.',
    holds: 'Round bar, bolts and studs of steel. No published job was found to check it against.',
    leavesOut: 'Tension in the bolt, which lets go when it is severed.',
    fails: '(20,1,"3/16 x 18")',
  },
  BREACH: {
    geometry: 'Holes pierced at their own width. Concrete only melts and does not burn; steel in it may burn.',
    pressure: 'One pressure for all thicknesses, 80 to 120 psi in the published case.',
    holds:
      'Against the one published case found, a bar through 24 in of reinforced concrete: its oxygen lies between low and high, its time between burning and burning with pauses.',
    leavesOut: 'Aggregate that bursts, water in the wall, and what an opening does to the structure.',
    fails: '(24,0.2)',
  },
};

type Suffix = 'RODS' | 'OXYGEN' | 'BURN' | 'TIME' | 'PRESSURE' | 'PLAN' | 'STEPS';

const RESULT_WORDS: Readonly<Record<Exclude<Suffix, 'PRESSURE'>, string>> = {
  RODS: 'Pierces are counted rod by rod, since a rod must be its stub and the depth long at every moment; a cut list counts the same way. Anything else burns what those rods have left, and more: rod burnt off over what can be used of each. Whole rods, rounded up.',
  OXYGEN:
    'Flow times the time of burning, with a share for idling, and the flow of a lighting for each rod or place to start at.',
  BURN: 'Metal to remove over the rate of removal.',
  TIME: 'Burning over the share of the time in which a rod burns, rod changes and handling, all slower in a bad position, and the fixed times of the crew; for a pin also its cooling.',
  PLAN: 'One row of what the other functions give. Low and high come from draws over the ranges of the assumptions: one case in ten lies under the low, one over the high. The regulator setting is for the hose assumed; cylinders are shared down the list. Lists of 1,000 different items and more are worked out in columns, and low and high of their pins and holes read between solved sizes: see How sure.',
  STEPS: 'The same calculation with every step written down: each uses only what stands before it.',
};

function operationBackground(id: OperationId, suffix: Suffix): Background {
  const { geometry, pressure, holds, leavesOut, fails } = OPERATION_WORDS[id];
  const failing = [`=BURN.${id}.${suffix}${fails}`];
  if (suffix === 'PRESSURE') {
    return {
      how: `${pressure} The assumption tip pressure replaces it; under water the navy's rule holds, over the pressure of the water. Gauge pressure at the holder's inlet while oxygen flows.`,
      holds: 'Short rods at 40 to 150 psi. It is where the work starts; the operator sets what the slag asks for.',
      leavesOut: 'What the cylinder and hose can deliver: BURN.SUPPLY.CHECK says that.',
      fails: failing,
    };
  }
  return {
    how: `${geometry} ${BURNING} ${RESULT_WORDS[suffix]}`,
    holds: `${holds} ${SHARES}`,
    leavesOut: `${leavesOut} ${UNSEEN}`,
    fails: failing,
  };
}

const ROD_FLOW =
  'A rod is a tube packed with wires; oxygen runs through the passages between. Isothermal compressible flow with friction through them, behind the holder taken as an orifice in series; choked where the exit is.';
const HOSE_FLOW =
  'Isothermal compressible flow with friction (Colebrook) of the real gas through the hose, fittings as loss coefficients on its bore.';
const ROOM =
  'A well-mixed room: oxygen and fresh air flow in, mixed air flows out, the fresh air divided by a mixing factor.';
const ROOM_LEAVES =
  'The air near the work, in corners, low places and under clothing, which is richer. Only a meter where people breathe tells.';
const CONDUCTION =
  'Heat conduction through rings of pin and boss with the properties of steel over temperature (EN 1993-1-2), contact between them, air and radiation or water outside and in the bore; the heat of burning is given to the wall pass by pass.';
const STEEL = 'Carbon and low-alloy steel, a pin longer than it is thick, a boss that is round.';
const REGISTER = { holds: 'It reads the registers of this version.', leavesOut: 'Nothing is looked up outside.' };
const DRAWS =
  'Items share crew, gas and rods in each draw and have their own scatter besides; the draws are the same at each calculation.';

const OTHERS: Readonly<Record<string, Background>> = {
  'PIN.HOLE': {
    how: 'A share of the diameter, common practice.',
    holds:
      'Pins to be pushed out after burning. What is left must be thin enough to give way and thick enough to keep the boss from the bore.',
    leavesOut: 'Drift of the pilot, grease galleries and keyways.',
  },
  'ROD.FLOW': {
    how: ROD_FLOW,
    holds:
      'Steady flow; constructions of common practice. It gives 2 to 15 scfm over 40 to 150 psi where practice says 4 to 10 and an operator throttles at the top, and a measured flow can be set as an assumption.',
    leavesOut: 'A bent rod, slag in its end, and the drop in flow while it lights.',
  },
  'ROD.PRESSURE': {
    how: `${ROD_FLOW} Solved for the pressure before the holder.`,
    holds: 'As BURN.ROD.FLOW.',
    leavesOut: 'What the hose and regulator lose on the way: BURN.HOSE.SETTING.',
  },
  'ROD.LIST': {
    how: 'The register of rods with what the longest of each gives at the pressure assumed: flow, burn-off, time.',
    holds: 'Constructions are common practice, pipes of bars after ASME B36.10.',
    leavesOut: "Any maker's own construction; set yours in the assumptions.",
  },
  'ROD.PICK': {
    how: 'Every rod that fits the opening, the clear length, the reach and the supply is sized, coupled too where that could pay, and the one whose work costs least is picked: crew time at the work, rods and oxygen by the prices assumed, rods counted before they are rounded up.',
    holds: 'As the operation it picks for.',
    leavesOut: 'What is in stock; set crew price, rod price, bar price and oxygen price to yours.',
    fails: ['=BURN.ROD.PICK("HOLE",0.2,6)'],
  },
  'ROD.CUTLIST': {
    how: 'Branch and bound over plans in which deeper holes come first on each rod, since it must still reach the face with its stub. It says whether fewer rods are possible.',
    holds: "Holes pierced at the rod's own width, one size of rod.",
    leavesOut: 'The order in which the crew would rather go.',
    fails: ['=BURN.ROD.CUTLIST({4;6},{"3/8 x 36";"1/4 x 24"})'],
  },
  ASSUMED: {
    how: 'Lists the register of assumptions as it is in force. The value is the middle, as often too low as too high; one case in ten lies below the low, one in ten above the high (P10 and P90).',
    ...REGISTER,
    fails: ['=BURN.ASSUMED("nothing of the kind")'],
  },
  VERSION: {
    how: 'The version that every change of a formula or a default changes.',
    holds: 'Two sheets with the same version and the same cells show the same figures.',
    leavesOut: 'Changes of the spreadsheet program.',
  },
  SOURCES: { how: 'Lists the register of sources.', ...REGISTER, fails: ['=BURN.SOURCES("nothing of the kind")'] },
  CONDITIONS: {
    how: 'Lists the words that the cautions know.',
    ...REGISTER,
    fails: ['=BURN.CONDITIONS("nothing of the kind")'],
  },
  'ASSUME.DIFF': {
    how: 'Compares the rows given with the register; correlations stand below them, each beside the none of the register, and where one of its two is no longer as a log told it, that is said.',
    ...REGISTER,
    fails: [
      '=BURN.ASSUME.DIFF({"stub","long"})',
      '=BURN.ASSUME.DIFF({"correlation of flow factor with rod feed ratio",1})',
    ],
  },
  'ASSUME.EFFECT': {
    how: 'Each assumption that the item asks for is set to its low and to its high, all others as they are, and the item is sized anew.',
    holds: 'One at a time: the order of importance, not the spread of all together.',
    leavesOut:
      'Assumptions that move together; the low and high of a plan draw them all, and those correlated by assume have one index together.',
    fails: ['=BURN.ASSUME.EFFECT("PIN",{4,10;3,8})'],
  },
  'CYLINDER.CONTENT': {
    how: 'Water volume times the density of oxygen at that pressure and temperature, by the reference equation of state, less what stays at the leftover pressure.',
    holds:
      '222 to 350 K (-60 to 170 F) and up to 30 MPa; above 300 K the equation is extrapolated. A cylinder at rest: gauge and gas at one temperature.',
    leavesOut:
      'The cold of a fast draw, which holds some back (BURN.CYLINDER.COUNT counts it), and the error of the gauge.',
    fails: ['=BURN.CYLINDER.CONTENT(43,200,70,250)'],
  },
  'CYLINDER.COUNT': {
    how: 'What one cylinder yields when it is drawn at the assumed flow, its gas cooling against the wall by natural convection, less the loss of each change; whole cylinders, rounded up.',
    holds: 'One cylinder at a time, drawn without a pause, standing in air at the gas temperature.',
    leavesOut: 'Cylinders that come short-filled, and leaks.',
    fails: ['=BURN.CYLINDER.COUNT(1000,,{"leftover pressure",2500})'],
  },
  'CYLINDER.GAUGE': {
    how: 'The density of the fill at 70 F is kept; the pressure follows from the reference equation of state.',
    holds: '222 to 350 K (-60 to 170 F) and up to 30 MPa.',
    leavesOut: 'A cylinder that is colder inside than out, as after a fast draw.',
    fails: ['=BURN.CYLINDER.GAUGE(4200,150)'],
  },
  'CYLINDER.SEPARATION': {
    how: 'Compares with 29 CFR 1910.253(b)(4)(iii): 20 ft, or a noncombustible barrier of 5 ft and half an hour.',
    holds: 'Stored cylinders under that rule.',
    leavesOut: 'Other codes, and cylinders in use.',
  },
  'CYLINDER.LIMITS': {
    how: 'Adds up the oxygen and compares it with the limits of 29 CFR 1910.253 and 1910.104.',
    holds: 'Cubic feet at 70 F and 14.7 psia, as the standards count.',
    leavesOut: 'Other codes, and limits of the site.',
  },
  'HOSE.LOSS': {
    how: HOSE_FLOW,
    holds: 'Steady flow at one temperature, a hose without kinks; published examples agree.',
    leavesOut: 'Check valves and arrestors beyond the fittings assumed.',
    fails: ['=BURN.HOSE.LOSS(60,50,200,"1/4")'],
  },
  'HOSE.SETTING': {
    how: `${HOSE_FLOW} Solved backward from the holder, with the pressure of the water over the work.`,
    holds: 'Sea water at 0.445 psi a foot, as the navy counts it, unless set otherwise.',
    leavesOut: 'Creep of the regulator between flowing and standing.',
    fails: ['=BURN.HOSE.SETTING(150,60,1000,"1/4")'],
  },
  'SUPPLY.CHECK': {
    how: 'Cylinder, regulator, hose, holder and rod are solved together at the present cylinder pressure and at the change; each element in turn is made to lose nothing, and the one that gives most flow is named as the limit.',
    holds: 'A regulator whose setting drifts with the cylinder as assumed; gas that cools while drawn.',
    leavesOut: 'Regulators that freeze or chatter.',
    fails: ['=BURN.SUPPLY.CHECK("3/8 x 36",90,50,"3/8",1,500)'],
  },
  'COOL.TIME': {
    how: `${CONDUCTION} The pin is burnt out as PIN would, and heats at the pace of that. A bushing of steel counts as boss, with one more joint round it. The time is read where the hottest part is at the target and the pin's mean is even with its boss.`,
    holds: `${STEEL} Still air, or water through the bore and over part of the boss.`,
    leavesOut: 'Wind, ends that lose heat to a web or a machine, and grease that burns.',
  },
  'COOL.CURVE': {
    how: CONDUCTION,
    holds: `${STEEL} Still air, or water through the bore and over part of the boss.`,
    leavesOut: 'Wind, and ends that lose heat to a web or a machine.',
  },
  'COOL.SHRINK': {
    how: 'The temperatures of cooling load rings of pin and boss that expand, press, yield with the strength of hot steel and shrink; what is left of the interference is compared with what was. That is done for 32 cases, in which heat, heated zone, pace of the work, joint, boss, interference, strength and boiling are drawn; the result is the middle of them.',
    holds: `${STEEL} It starts from the interference assumed for the diameter.`,
    leavesOut: 'Creep, hardening, and rust that the heat breaks: BURN.GRIP.AFTER counts that.',
  },
  'GRIP.PRESSURE': {
    how: "Lame's thick rings for pin and boss; where one yields, elastic and perfectly plastic rings.",
    holds: 'Round, full contact, one temperature.',
    leavesOut: 'Keys, tapers, galling and bell-mouthed bores.',
  },
  'GRIP.FORCE': {
    how: 'Contact area times friction on the contact pressure and the bond of rust.',
    holds: 'Before it is heated; round and in full contact.',
    leavesOut: 'Mushroomed ends, bent pins, and load that still hangs on the pin.',
  },
  'GRIP.AFTER': {
    how: 'Interference, friction and rust are drawn from their ranges; a draw counts only as far as it would have held the push that was tried. Each then loses what burning, cooling and shrinking take in one of 32 cases, in which heat, heated zone, pace of the work, joint, strength and boiling are drawn; in order of how much they loosen, those in the middle of five parts are followed, with water of 16, and the others read between. How far a chance may be off for the number of cases, in 95 of 100, comes from how these differ among themselves; it is that of cases at random, and evenly spread ones are nearer: for 51 pins within 1.6 hundredths of 512 cases, each followed, in the root mean square.',
    holds: `${STEEL} Ranges independent of one another; common practice for the rust.`,
    leavesOut: 'Mushroomed ends, bent pins, keys, and load that still hangs on the pin.',
    fails: ['=BURN.GRIP.AFTER(4,10,10,2.5,5000)'],
  },
  'PUSH.RAM': {
    how: 'The smallest common rating that the force uses only in part.',
    holds: 'Ratings that are commonly hired.',
    leavesOut: 'Stroke, height and what the frame can take.',
    fails: ['=BURN.PUSH.RAM(15000)'],
  },
  'PUSH.SPACERS': {
    how: 'Travel over the part of the stroke that is used; one spacer goes in after each stroke but the last.',
    holds: 'Spacers of one length.',
    leavesOut: 'Room for the ram and for taking the pin away. A blind pin is refused: it is pulled.',
  },
  'PUSH.CHECK': {
    how: 'Bearing, column and reaction stresses against what the steels allow with a safety factor; energy of squeezed pin, stack and oil, and the speed the pin cannot exceed on it.',
    holds:
      'A push along the axis, ends square; the frame bears on the boss beside a bushing, which may come along with the pin.',
    leavesOut: 'Spacers that slip sideways, and the frame. It is no proof that a push is safe.',
  },
  'GUARD.PLATES': {
    how: 'Sizes from the pin and the rod; the weld from the push on the rod and oxygen shut in over the whole bore; drift as a share of the depth.',
    holds: 'Drift in a straight line.',
    leavesOut: 'A rod that follows a crack or a weld inside.',
  },
  SPREAD: {
    how: `Draws over the ranges of all that the item rests on. ${DRAWS} The second column is how far the value may be off for the number of draws, in 95 cases of 100 were they at random; in the tails draws are added until that is at most 5 % of the value, to 16,384. Low and high of a plan are those at 10 and 90 of the first 1,024.`,
    holds: 'The ranges are as good as their lows and highs; your own log narrows them.',
    leavesOut: 'What is in no range: a wrong list, another crew, a pin that is not what it seemed.',
  },
  'JOB.PLAN': {
    how: 'Each row of the list is sized as by the PLAN of its operation, with whatever assumptions its own columns set, and multiplied by its pieces. Low and high of a row are those of its pieces together, and those of the total of the whole list: pieces share crew, gas and rods, and each has its own scatter. The note of the total says how far its low and high may be off for the number of draws, in 95 cases of 100 were they at random: for oxygen and crew time 5 % at most, and for rods 5 % or one, since draws are added to the 1,024 until that is so, up to 16,384, or a million for all pieces together; of a longer list it says what is left. The same list has the same draws in all functions of a job. A row of one piece, and a list of one, has the low and high of its own plan, from 1,024. Cylinders are counted down the list.',
    holds: 'As the PLAN of each operation.',
    leavesOut: 'Rows that cannot be sized: each is named in its place and in the total.',
    fails: ['=BURN.JOB.PLAN({"mark","dia";"Boom foot",5})'],
  },
  'JOB.STOCK': {
    how: `The need of everything is drawn for the whole list. ${DRAWS} All lines are loaded for the same share of the draws, the least for which everything suffices together as often as asked. The note of each line says how far its load may be off for the number of draws, in the line's unit, and 95 cases of 100; that of crew work is for the whole things that are loaded. Draws are added as for the total of BURN.JOB.PLAN, until each is at most 5 % of the load or one of what is whole, so that a load for 99 % rests on more of them than one for 80 %. The chance of falling short is then known to 3.1 points at most. Crew work is crew time without cooling, with the changes of cylinders.`,
    holds: 'As BURN.SPREAD.',
    leavesOut: 'Theft, loss and a second visit.',
  },
  'JOB.COST': {
    how: 'What BURN.JOB.STOCK loads for the confidence, and the days and waiting of BURN.JOB.SCHEDULE, times your prices; contingency on the subtotal, then margin as a share of the price or mark-up on the cost, then tax: that is quoted. Used low and used high are what the same lines come to for what the job takes in the draws of the load, each sum with its own, by as many draws as the total of BURN.JOB.PLAN: one job in ten stays under the used low, nine in ten under the used high. What is loaded to be on the safe side may cost more than the used high, since some of it comes back unused. Days of the used low and high come from the schedule laid out at several paces of the work, each with three coolings, and read between them.',
    holds: 'Prices in one money.',
    leavesOut: 'Travel and whatever has no price cell; other lines can be named.',
    fails: ['=BURN.JOB.COST({4,10},{"crow",180})'],
  },
  'JOB.SCHEDULE': {
    how: 'Three orders of the pieces and two habits of the crew are laid out, and the one that is done first is taken: the crew burns one pin while another cools, hot work ends early enough for the fire watch, a burner stays within the noise dose. Breaks come between two pieces; cylinders are changed where the oxygen burned so far uses them up, counted as if all crews drew from the same ones. One shift a day.',
    holds: 'Crews that can do any step; not proved to be the quickest of all orders.',
    leavesOut: 'Weather, and waiting for the crane. Crews with cylinders of their own may each leave one partly used.',
  },
  'JOB.COMPARE': {
    how: 'The list is evaluated with each set of assumptions. What an assumption did is found by changing it alone from A to B; what they do only together is what is left. Rods, oxygen and crew work are sums of the plans; what is loaded is for the assumption load confidence of each way, shifts are for its crews and day length.',
    holds: 'Changes of one assumption alone, from A.',
    leavesOut: 'Whatever differs in the list itself.',
  },
  'JOB.JOINT': {
    how: 'Cost and time of every world of the load stand side by side: the cost of what is used, priced as in BURN.JOB.COST, and the time of the schedule, laid out at several paces of the work, each with three coolings, and read between them. A chance is the share of the worlds; a frontier has the least cost for each time.',
    holds:
      'What varies is what the assumptions say. Plus or minus is the 95 % interval of a chance counted over draws at random: 3.1 points at most for the 1,024 draws, or more, that the total of BURN.JOB.PLAN rests on; evenly spread draws are nearer.',
    leavesOut: 'Weather, waiting for the crane, breakdowns, prices that change.',
  },
  'ASSUME.WORTH': {
    how: 'A quote that covers the cost with the assumption load confidence loses what a job costs more, and by so much less what it costs less that this confidence is right. Worth is what that loss falls by, on average, where the assumption is known before: the cost less a cubic regression on it over the draws. Assumptions that are drawn together are known together; of one that is correlated by assume counts what it tells of the others too.',
    holds:
      'One assumption known, the others as uncertain as they were; a worth below 1 % of knowing everything is chance and is left out.',
    leavesOut: 'What the measuring costs, and what a better rod or another method would change.',
  },
  'JOB.SHEET': {
    how: 'Gathers cautions, the list by mark, the load, the times, departures from defaults, fire watch and what to wear from the other functions. Confidence, crews, shift and start are those of the assumptions load confidence, crews, day length and shift start.',
    holds: 'What the list and the conditions say.',
    leavesOut: 'Whatever nobody wrote into a cell. It permits nothing.',
  },
  'JOB.BASIS': {
    how: "The list's own evaluation, and each assumption put to its low and to its high, one at a time, on the rows whose work costs most; the class goes by how much of what is uncertain rests on values of your own.",
    holds:
      'What the list and the assumptions say. Costs are those of the work by the prices assumed, not those of a quote.',
    leavesOut: 'What assumptions do only together, and whatever nobody wrote into a cell.',
  },
  'JOB.REPORT': {
    how: 'The steps of one row as STEPS gives them, then every row of the list as BURN.JOB.PLAN has it.',
    holds: 'All rows of an operation are worked by the same steps; another operation has its own.',
    leavesOut: 'The steps of the other rows; name one as item to see them.',
  },
  'LOG.FIT': {
    how: "The ranges of the assumptions are the prior; each job's rods, oxygen and minutes move them by Bayes' rule in logarithms, wild jobs counting less (Huber). How long the pins cooled is told by one figure, longer cooling, in place of all that it rests on: the draws of a plan fall into a few cases, such as minutes and an hour, each counts as the log makes it likely, and a correlation sets the crew's times against it. Factors of which the log tells what they do together, better than each, come with rows of their correlation; as assume these draw them along with each other (a Gaussian copula).",
    holds:
      'One crew, one gas, one kind of work. Factors that a log cannot tell apart are held, and their range carried by those that are fitted. Whoever puts another value in place of a fitted one fits again, or takes the rows of its correlations out; BURN.ASSUME.DIFF says which these are.',
    leavesOut: 'Jobs that were never written down, which are rarely the good ones.',
  },
  'LOG.RANGE': {
    how: "Each job's distance is how far it came out from its plan over how far its low or high stands there, with the scatter of readings, in logarithms. Of the distances of your jobs the next one stays under the one at eight tenths of their number and one more, in eight cases of ten, whatever the model (conformal). The rows range of rods, range of oxygen, range of burning and range of crew time are these: as assume they take every draw so many times as far from the plan, so that low, high, other percentiles, chances and totals follow, in plans and job functions alike. Rods stay whole, and the plan itself stays.",
    holds:
      'Nine jobs that note the figure; jobs of one or two rods do not count for rods. What assume has of these rows already does not count. What was fitted to the same jobs is held against them too kindly: fit to some, and take the range from others.',
    leavesOut:
      'Whether the jobs to come are like those of the log. Beyond low and high the draws keep the shape of the model; only between them did the log vouch.',
    fails: ['=BURN.LOG.RANGE({"diameter","length","oxygen used";4,10,140})'],
  },
  'LOG.SCORE': {
    how: 'Each job is estimated with the assumptions given and compared with what was noted; bias and spread are held against what honest estimates would show by chance. CRPS is the mean distance of the whole distribution from what was noted, in parts of its middle; skill is how much less that is than with the ratios of noted over estimated of your other jobs alone. Between vouched from and vouched to, times the middle (BURN.SPREAD at 50), the next job of the kind comes out in eight cases of ten, whatever the model: these are the ratios of the log itself.',
    holds: 'It says nothing with a handful of jobs, and says so; nine are needed to vouch for a range.',
    leavesOut: 'Whether the jobs to come are like those of the log.',
    fails: ['=BURN.LOG.SCORE({"diameter","length";4,10})'],
  },
  'NOISE.HOURS': {
    how: 'Eight hours halved for each exchange rate above the criterion: 5 dB by OSHA, 3 dB by NIOSH and the EU.',
    holds:
      '30 to 140 dBA at the ear, protectors not counted. Unprotected, OSHA allows no time above 115 dBA, NIOSH and the EU none above 140.',
    leavesOut: 'Impulses, and what the ear has had before.',
  },
  'NOISE.DOSE': {
    how: 'The sum over the tasks of time spent over time allowed.',
    holds: 'A shift of at most a day.',
    leavesOut: 'Protectors, whose rating is seldom reached on site.',
    fails: ['=BURN.NOISE.DOSE({92;100},{4;0.5;3})'],
  },
  'NOISE.SHIFT': {
    how: 'The dose as a steady level over eight hours, beside each level of the rule at which something is due.',
    holds: 'A shift of at most a day.',
    leavesOut: 'Protectors, whose rating is seldom reached on site.',
    fails: ['=BURN.NOISE.SHIFT({92;100},{4;0.5;3})'],
  },
  'AIR.RELEASE': {
    how: 'The share of the flow that the rod does not burn, and leaks. Of the share that burns it takes the low, not the value: of the air of a room, to count too little is the dangerous side.',
    holds: 'While a rod burns.',
    leavesOut: 'A valve left open, which lets out all of it.',
  },
  'AIR.OXYGEN': {
    how: ROOM,
    holds: 'Steady flows; pressure and temperature of the room as assumed.',
    leavesOut: ROOM_LEAVES,
  },
  'AIR.RISE': {
    how: `${ROOM} Solved for the time.`,
    holds: 'Steady flows; pressure and temperature of the room as assumed.',
    leavesOut: ROOM_LEAVES,
    fails: ['=BURN.AIR.RISE(4000,6,5000)'],
  },
  'AIR.CLEAR': {
    how: `${ROOM} The valve is shut.`,
    holds: 'Steady fresh air of the oxygen assumed.',
    leavesOut: ROOM_LEAVES,
    fails: ['=BURN.AIR.CLEAR(4000,0,26)'],
  },
  'AIR.FRESH': {
    how: `${ROOM} The steady state, solved for the fresh air.`,
    holds: 'For oxygen alone.',
    leavesOut: `Fume, heat and people, which may ask for more. ${ROOM_LEAVES}`,
    fails: ['=BURN.AIR.FRESH(6,20)'],
  },
  'AIR.PEOPLE': {
    how: 'The rule of 29 CFR 1910.252(c)(2): 2000 cfm each where there is less than 10,000 cu ft each, a ceiling under 16 ft, or a confined space.',
    holds: 'Under that rule.',
    leavesOut: 'Zinc, lead, beryllium, cadmium, stainless steel and others, which have rules of their own.',
  },
  'AIR.FUME': {
    how: 'A share of the metal removed becomes fume, with manganese enriched; it fills a well-mixed room.',
    holds: 'An order of magnitude: no published fume factor was found for exothermic rods.',
    leavesOut: "The plume, where the burner's head is. Only an air sample in the breathing zone tells.",
  },
  'FIRE.WATCH': {
    how: 'What the rule says.',
    holds: 'The edition named.',
    leavesOut: 'Stricter rules of the place and the permit, which go first.',
    fails: ['=BURN.FIRE.WATCH("local")'],
  },
  'FIRE.REACH': {
    how: 'Drops of the assumed sizes thrown at the worst angle, falling with drag in the assumed wind and bouncing, or 35 ft, whichever is more.',
    holds: 'Up to 200 m high; drops of 0.3 to 20 mm. No test of drops from such work was found.',
    leavesOut: 'Ledges, gusts and openings that carry sparks farther.',
  },
  'FIRE.CHECK': {
    how: 'Your own things within the reach of BURN.FIRE.REACH, then a list of what the rules ask to look for.',
    holds: 'As BURN.FIRE.REACH.',
    leavesOut: 'What nobody has listed.',
    fails: ['=BURN.FIRE.CHECK(12,{"diesel tank";"hay barn"})'],
  },
  'EYE.SHADE': {
    how: 'The table of 29 CFR 1910.133(a)(5) for oxygen cutting.',
    holds: 'A least shade by that table.',
    leavesOut: 'That an exothermic rod burns brighter: begin darker.',
  },
  'LEAD.DROP': {
    how: 'Current times the resistance of copper of that gauge at the assumed temperature.',
    holds: 'Direct current, -100 to 200 C.',
    leavesOut: 'Joints, clamps and the battery, which lose more.',
    fails: ['=BURN.LEAD.DROP(150,100,"7/0")'],
  },
  'BATTERY.STRIKES': {
    how: "Peukert's law from the charge rated over 20 hours, of which a share is used.",
    holds: 'Currents above the 20-hour one. A battery recovers between strikes, so the count is on the low side.',
    leavesOut: 'Cold and age, which lower it.',
  },
  CAUTIONS: {
    how: 'Rules that name operations, conditions and figures bring up cautions; each names its clause. Material, rod, position, access, grounding, water on the pin, wind, loud work and a large manifold count as conditions, whether they come from a job list, a plan, from sizes or from assumptions. Of a list, each caution names the marks it is for.',
    holds: 'What is written down here, from the editions named.',
    leavesOut: 'All else. Local codes, the permit and qualified people rule.',
    fails: ['=BURN.CAUTIONS("PIN",{"windowless"})'],
  },
  'PPE.LIST': {
    how: 'Rules that name operations and conditions bring up what to wear, and against what. What counts as a condition is the same as for BURN.CAUTIONS.',
    holds: 'The least, from the editions named.',
    leavesOut: "The employer's own assessment, which decides.",
    fails: ['=BURN.PPE.LIST("PIN",{"windowless"})'],
  },
};

/** What stands behind a function, by its name. */
export function backgroundOf(name: string): Background {
  const short = name.replace(/^BURN\./, '');
  const [family = '', suffix = ''] = short.split('.');
  const own = OTHERS[short];
  if (own) return own;
  const id = OPERATION_IDS.find((each) => operationOf(each).id === family);
  if (!id || !(suffix in RESULT_WORDS || suffix === 'PRESSURE'))
    throw new Error(`nothing is said of what stands behind ${name}`);
  return operationBackground(id, suffix as Suffix);
}
