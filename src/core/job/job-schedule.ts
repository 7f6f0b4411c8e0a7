/** A job list laid out in shifts. */
import type { Basis } from '../basis.ts';
import { CalcError } from '../errors.ts';
import { fireWatch } from '../safety/fire-watch.ts';
import { NOISE_RANGE, noiseHours } from '../safety/noise-hours.ts';
import { findNoiseRule } from '../safety/noise-rules.ts';
import { doesNotFitShift, itemOverNoiseLimit } from '../messages.ts';
import type { NumberName } from '../assumptions/registry.ts';
import { cylinderCounts } from '../oxygen/cylinder-count.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { pieceName, type Job, type ListItem } from './job-list.ts';
import { showDuration } from './clock.ts';

/** Crew times that follow the burning; all others come before it. */
const AFTER: readonly NumberName[] = ['push-out time', 'clean-up time'];

/** One piece cut into what the schedule moves; all in s. */
export interface Stages {
  readonly item: ListItem;
  /** Its mark, with its number where there are several. */
  readonly name: string;
  /** Set-up and plates, just before the hot work. */
  readonly before: number;
  /** Burning with its pauses and rod changes. */
  readonly hot: number;
  /** Of that, rod burning: what makes the noise. */
  readonly burning: number;
  readonly cooling: number;
  /** Pressing out and clean-up, any time after the cooling. */
  readonly after: number;
  readonly oxygen: number;
}

/** When a piece is worked on. Times in s from the start of their shift; shifts from 1. */
export interface Slot {
  readonly stages: Stages;
  readonly crew: number;
  readonly shift: number;
  readonly start: number;
  readonly hotFrom: number;
  readonly hotTo: number;
  /** When it has cooled; more than a shift where it cools through the night. */
  readonly cool: number;
  /** Noise dose of that crew's burner in that shift up to here, protectors counted; 1 is all the rule allows. */
  readonly dose: number;
  /** Cylinders opened so far on the job, and those that were changed while this piece burned, with the time of each. */
  readonly cylinders: number;
  readonly changes: readonly number[];
  readonly pushShift: number;
  readonly pushFrom: number;
  readonly done: number;
}

/** Time in which a crew does nothing at a piece: it waits for one to cool, or has its break. */
export interface Pause {
  readonly crew: number;
  readonly shift: number;
  readonly from: number;
  readonly to: number;
  /** What is waited for; undefined for a break. */
  readonly waitsFor: Stages | undefined;
}

export interface Schedule {
  /** In the order the burning starts. */
  readonly slots: readonly Slot[];
  readonly pauses: readonly Pause[];
  /** Pieces that fit no shift, with the reason. */
  readonly left: readonly { readonly stages: Stages; readonly reason: string }[];
  readonly crews: number;
  readonly shifts: number;
  /** Shifts worked, those of each crew counted. */
  readonly crewShifts: number;
  /** When the last work of the last shift is done. */
  readonly end: number;
  /** Fire watch after the last burning of a shift [s], and the rule's name. */
  readonly watch: number;
  readonly watchRule: string;
  /** End of the last burning of each shift; undefined in a shift without. */
  readonly lastHot: readonly (number | undefined)[];
  readonly noiseRule: string;
  /** Highest dose of a burner in a shift, protectors not counted. */
  readonly bareDose: number;
  /** Time that crews are busy, cylinder changes included [s]. */
  readonly work: number;
  /** Time that crews wait with nothing to do before the end [s]. */
  readonly standby: number;
  readonly breaks: number;
  /** Cylinders opened, in the order of burning; undefined where none can be drawn. */
  readonly cylinders: number | undefined;
}

/**
 * Cuts each piece of a list into what a schedule moves: its crew time is before + hot + cooling + after.
 *
 * @example stagesOf(job)[0].hot / 60 // 21.66
 */
export function stagesOf({ items }: Job): readonly Stages[] {
  return items.flatMap((item) => {
    const { sized, basis, quantity } = item;
    const after = sized.operation.crewTimes
      .filter((name) => AFTER.includes(name))
      .reduce((time, name) => time + basis.a.value(name), 0);
    return Array.from({ length: quantity }, (_, i): Stages => ({
      item,
      name: pieceName(item, i),
      before: sized.workTime - sized.timeAtWork - after,
      hot: sized.timeAtWork,
      burning: sized.burnTime,
      cooling: sized.cooling,
      after,
      oxygen: sized.oxygen,
    }));
  });
}

interface Limits {
  readonly shift: number;
  /** Latest end of hot work in a shift. */
  readonly hotUntil: number;
  /** Burning time that fills the noise dose; Infinity where the noise does not count. */
  readonly noiseTime: number;
  readonly breakAfter: number;
  readonly breakLength: number;
  /** Oxygen that one cylinder serves [kg]; Infinity where none can be drawn. */
  readonly content: number;
  /** Cylinders that an amount of oxygen [kg] takes; 0 where none can be drawn. */
  readonly opened: (oxygen: number) => number;
  readonly changeTime: number;
}

type Burnt = Omit<Slot, 'pushShift' | 'pushFrom' | 'done' | 'crew'>;

interface Crew {
  readonly number: number;
  shift: number;
  time: number;
  /** End of the last break, or the start of the shift. */
  rested: number;
  dose: number;
  burnt: Burnt[];
}

/** Rules by which a crew that may do both chooses: press out what is cold, or light the next. */
type Preference = 'push' | 'burn';

const TOLERANCE = 1e-6;

/** Whether an item has cooled by a time of a shift; a night between two shifts cools anything. */
function isCool(burnt: Burnt, shift: number, time: number): boolean {
  return shift > burnt.shift || burnt.cool <= time + TOLERANCE;
}

interface LaidOut {
  readonly slots: readonly Slot[];
  readonly pauses: readonly Pause[];
  readonly cylinders: number;
}

/** One pass over the pieces in a given order. The crew that is free soonest takes the next step. */
class Layout {
  private readonly queue: Stages[];
  private readonly crews: readonly Crew[];
  private readonly slots: Slot[] = [];
  private readonly pauses: Pause[] = [];
  private oxygen = 0;
  private cylinders = 0;

  constructor(
    items: readonly Stages[],
    crews: number,
    private readonly limits: Limits,
    private readonly preference: Preference,
  ) {
    this.queue = [...items];
    this.crews = Array.from({ length: crews }, (_, i) => ({
      number: i + 1,
      shift: 1,
      time: 0,
      rested: 0,
      dose: 0,
      burnt: [],
    }));
  }

  run(): LaidOut {
    for (let working = this.open(); working.length > 0; working = this.open()) {
      const crew = working.reduce((x, y) =>
        y.shift < x.shift || (y.shift === x.shift && y.time < x.time - TOLERANCE) ? y : x,
      );
      this.step(crew);
    }
    return {
      slots: this.slots.sort((x, y) => x.shift - y.shift || x.start - y.start || x.crew - y.crew),
      pauses: this.pauses,
      cylinders: this.cylinders,
    };
  }

  private open(): Crew[] {
    return this.crews.filter((c) => this.queue.length > 0 || c.burnt.length > 0);
  }

  /** Cylinders opened when a piece has burned too. */
  private openedWith(stages: Stages): number {
    return this.limits.opened(this.oxygen + stages.oxygen);
  }

  /** The first cylinder is put on while setting up. */
  private changesFor(stages: Stages): number {
    return Math.max(0, this.openedWith(stages) - Math.max(1, this.cylinders));
  }

  private step(crew: Crew): void {
    const { limits } = this;
    const resting = crew.time - crew.rested >= limits.breakAfter - TOLERANCE && limits.breakLength > 0;
    const now = crew.time + (resting ? limits.breakLength : 0);
    // Changes come last: they are what takes long to find, and most that does not fit does not without them.
    const fits = (stages: Stages): boolean => {
      const left = limits.hotUntil + TOLERANCE - (now + stages.before + stages.hot);
      if (!(left >= 0 && crew.dose + stages.burning / limits.noiseTime <= 1 + TOLERANCE)) return false;
      return this.changesFor(stages) * limits.changeTime <= left;
    };
    const next = this.queue.findIndex(fits);
    const cold = crew.burnt.find((b) => isCool(b, crew.shift, now) && now + b.stages.after <= limits.shift + TOLERANCE);
    // Nothing can be done now: wait for the next pin to cool, or go home.
    const soonest = crew.burnt
      .filter((b) => b.shift === crew.shift && b.cool > now && b.cool + b.stages.after <= limits.shift)
      .reduce<Burnt | undefined>((x, y) => (x && x.cool <= y.cool ? x : y), undefined);
    const canDo = cold !== undefined || next >= 0;
    if (resting && canDo) this.pause(crew, now, undefined);
    if (cold && (this.preference === 'push' || next < 0)) this.push(crew, cold);
    else if (next >= 0) this.burn(crew, this.queue.splice(next, 1)[0]!);
    else if (soonest) this.pause(crew, soonest.cool, soonest.stages);
    else Object.assign(crew, { shift: crew.shift + 1, time: 0, rested: 0, dose: 0 });
  }

  /** A wait of at least a break's length is the break. */
  private pause(crew: Crew, until: number, waitsFor: Stages | undefined): void {
    this.pauses.push({ crew: crew.number, shift: crew.shift, from: crew.time, to: until, waitsFor });
    if (until - crew.time >= this.limits.breakLength - TOLERANCE) crew.rested = until;
    crew.time = until;
  }

  private push(crew: Crew, burnt: Burnt): void {
    const done = crew.time + burnt.stages.after;
    this.slots.push({ ...burnt, crew: crew.number, pushShift: crew.shift, pushFrom: crew.time, done });
    crew.burnt = crew.burnt.filter((b) => b !== burnt);
    crew.time = done;
  }

  private burn(crew: Crew, stages: Stages): void {
    const { content, changeTime, noiseTime } = this.limits;
    const hotFrom = crew.time + stages.before;
    const count = this.changesFor(stages);
    // A change comes where the oxygen of the cylinders before it is used up.
    const first = Math.max(1, this.cylinders);
    const changes = Array.from({ length: count }, (_, i) => {
      const share = ((first + i) * content - this.oxygen) / stages.oxygen;
      return hotFrom + Math.min(1, Math.max(0, share)) * stages.hot + i * changeTime;
    });
    this.cylinders = this.openedWith(stages);
    this.oxygen += stages.oxygen;
    const hotTo = hotFrom + stages.hot + count * changeTime;
    crew.dose += stages.burning / noiseTime;
    crew.burnt.push({
      stages,
      shift: crew.shift,
      start: crew.time,
      hotFrom,
      hotTo,
      cool: hotTo + stages.cooling,
      dose: crew.dose,
      cylinders: this.cylinders,
      changes,
    });
    crew.time = hotTo;
  }
}

const lastOf = (slots: readonly Slot[]): { readonly shifts: number; readonly end: number } =>
  slots.reduce(
    ({ shifts, end }, s) =>
      s.pushShift > shifts
        ? { shifts: s.pushShift, end: s.done }
        : { shifts, end: s.pushShift === shifts ? Math.max(end, s.done) : end },
    { shifts: 0, end: 0 },
  );

/** How a job is worked. */
export interface Crewing {
  /** Whole, 1 or more. */
  readonly crews: number;
  /** From the start to the end of a shift, breaks included [s]. */
  readonly shift: number;
}

/** The crewing that the assumptions say. */
export const crewingOf = ({ a }: Basis, crews?: number, shift?: number): Crewing => ({
  crews: crews ?? a.value('crews'),
  shift: shift ?? a.value('day length'),
});

/**
 * Lays out a job in shifts: while one pin cools the crew burns the next or presses out a cold one.
 *
 * Hot work ends early enough for the fire watch to end within the shift, and a burner's noise dose, protectors
 * counted, stays within the rule's. A crew has a break after so many hours, between two pieces; waiting as long as a break is
 * one. Cylinders are changed where the oxygen of all pieces burned so far uses them up, as if all crews drew from the same
 * ones. Cooling goes on between shifts. The order as listed, longest cooling first and longest burning first are each tried
 * with both ways to choose between pressing and burning; the one that is done soonest is kept, of equals the first. Steps of
 * one piece stay with one crew.
 *
 * Limits: assumptions `burning noise`, `protector reduction`, `noise rule`, `fire watch rule`, `break after`, `break length`,
 * `cylinder change time`. Longest lag first: Mitten 1959.
 *
 * @param pace factor on all times of the crew and on the oxygen, for jobs that go worse than planned
 * @param cooling factor on all times of cooling
 * @example jobSchedule(job, crewingOf(basis)).end / 3600 // 1.695
 */
export function jobSchedule(job: Job, { crews, shift }: Crewing, pace = 1, cooling = 1): Schedule {
  return job.once(`schedule ${crews} ${shift} ${pace} ${cooling}`, () =>
    scheduleOf(job, { crews, shift }, pace, cooling),
  );
}

function contentOf(job: Job): number {
  try {
    return job.content;
  } catch (e) {
    if (e instanceof CalcError) return Infinity;
    throw e;
  }
}

const atPace = (stages: readonly Stages[], pace: number, cooling: number): readonly Stages[] =>
  stages.map((s) => ({
    ...s,
    before: pace * s.before,
    hot: pace * s.hot,
    burning: pace * s.burning,
    cooling: cooling * s.cooling,
    after: pace * s.after,
    oxygen: pace * s.oxygen,
  }));

function scheduleOf(job: Job, { crews, shift }: Crewing, pace: number, cooling: number): Schedule {
  const { a } = job.basis;
  const rule = findNoiseRule(a.word('noise rule'));
  const { watch, name: watchRule } = fireWatch(a.word('fire watch rule'));
  const allowed = (level: number): number =>
    level < rule.countedFrom ? Infinity : noiseHours(Math.max(level, NOISE_RANGE.quietest), rule);
  const noise = a.value('burning noise');
  const content = contentOf(job);
  const limits: Limits = {
    shift,
    hotUntil: shift - watch,
    noiseTime: allowed(noise - a.value('protector reduction')),
    breakAfter: a.value('break after'),
    breakLength: a.value('break length'),
    content,
    opened: content === Infinity ? () => 0 : cylinderCounts(content, 0),
    changeTime: a.value('cylinder change time'),
  };
  const left: { stages: Stages; reason: string }[] = [];
  const fitting: Stages[] = [];
  for (const stages of atPace(stagesOf(job), pace, cooling)) {
    const reason = whyNot(stages, limits, watch, rule.name, job);
    if (reason === '') fitting.push(stages);
    else left.push({ stages, reason });
  }
  const orders = [
    fitting,
    [...fitting].sort((x, y) => y.cooling - x.cooling),
    [...fitting].sort((x, y) => y.before + y.hot - (x.before + x.hot)),
  ];
  const tries = orders.flatMap((order) =>
    (['push', 'burn'] as const).map((preference) => new Layout(order, crews, limits, preference).run()),
  );
  const best = tries.reduce((x, y) => {
    const [one, other] = [lastOf(x.slots), lastOf(y.slots)];
    return other.shifts < one.shifts || (other.shifts === one.shifts && other.end < one.end - TOLERANCE) ? y : x;
  });
  const { slots, pauses, cylinders } = best;
  const { shifts, end } = lastOf(slots);
  const lastHot = Array.from({ length: shifts }, (_, i): number | undefined => {
    const ends = slots.filter((s) => s.shift === i + 1).map((s) => s.hotTo);
    return ends.length > 0 ? Math.max(...ends) : undefined;
  });
  const burntIn = new Map<string, number>();
  const worked = new Set<string>();
  for (const s of slots) {
    const key = `${s.crew} ${s.shift}`;
    burntIn.set(key, (burntIn.get(key) ?? 0) + s.stages.burning);
    worked.add(key).add(`${s.crew} ${s.pushShift}`);
  }
  const sum = (of: readonly Pause[]): number => of.reduce((time, { from, to }) => time + to - from, 0);
  return {
    slots,
    pauses,
    left,
    crews,
    shifts,
    crewShifts: worked.size,
    end,
    watch,
    watchRule,
    lastHot,
    noiseRule: rule.name,
    bareDose: Math.max(0, ...burntIn.values()) / allowed(noise),
    work: slots.reduce((time, s) => time + (s.hotTo - s.start) + s.stages.after, 0),
    standby: sum(pauses.filter((p) => p.waitsFor)),
    breaks: sum(pauses.filter((p) => !p.waitsFor)),
    cylinders: content === Infinity ? undefined : cylinders,
  };
}

/** Why a piece fits no shift; empty where it does. */
function whyNot(
  s: Stages,
  { shift, noiseTime, changeTime, opened }: Limits,
  watch: number,
  rule: string,
  job: Job,
): string {
  const needs = Math.max(s.before + s.hot + opened(s.oxygen) * changeTime + watch, s.after);
  if (needs > shift + TOLERANCE) return doesNotFitShift(showDuration(needs), showDuration(shift));
  if (s.burning > noiseTime * (1 + TOLERANCE)) {
    const minutes = (time: number): string => showQuantity(Math.round(time / 60) * 60, 'time', job.basis.a.system);
    return itemOverNoiseLimit(minutes(s.burning), minutes(noiseTime), rule);
  }
  return '';
}
