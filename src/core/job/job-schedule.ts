/** A planned job laid out in shifts. */
import type { Basis } from '../basis.ts';
import { fireWatch } from '../safety/fire-watch.ts';
import { NOISE_RANGE, noiseHours } from '../safety/noise-hours.ts';
import { findNoiseRule } from '../safety/noise-rules.ts';
import { doesNotFitShift, itemOverNoiseLimit, planTimesDiffer } from '../messages.ts';
import type { NumberName } from '../assumptions/registry.ts';
import { showQuantity } from '../units/show-quantity.ts';
import type { PlanRow } from './plan-row.ts';

/** Crew times that follow the burning; all others come before it. */
const AFTER: readonly NumberName[] = ['push-out time', 'clean-up time'];
/** Crew times of a plan that does not name its operation: those of a pin. */
const PIN_TIMES: readonly NumberName[] = ['set-up time', 'plate time', 'push-out time', 'clean-up time'];

/** One item cut into what the schedule moves; all in s. */
export interface Stages {
  readonly item: string;
  /** Set-up and plates, just before the hot work. */
  readonly before: number;
  /** Burning with its pauses and rod changes. */
  readonly hot: number;
  /** Of that, rod burning: what makes the noise. */
  readonly burning: number;
  readonly cooling: number;
  /** Pressing out and clean-up, any time after the cooling. */
  readonly after: number;
  readonly note: string;
}

/** When an item is worked on. Times in s from the start of their shift; shifts from 1. */
export interface Slot {
  readonly stages: Stages;
  readonly crew: number;
  readonly shift: number;
  readonly start: number;
  readonly hotFrom: number;
  readonly hotTo: number;
  /** Noise dose of that crew's burner in that shift up to here, protectors counted; 1 is all the rule allows. */
  readonly dose: number;
  readonly pushShift: number;
  readonly pushFrom: number;
  readonly done: number;
}

export interface Schedule {
  /** In the order the burning starts. */
  readonly slots: readonly Slot[];
  /** Items that fit no shift, with the reason in their note. */
  readonly left: readonly Stages[];
  readonly shifts: number;
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
  /** Time crews wait with nothing to do before the end [s]. */
  readonly idle: number;
}

/** Cuts the crew time of each item: fixed times and burning as assumed, the rest is cooling. */
export function stagesOf(plan: readonly PlanRow[], basis: Basis): readonly Stages[] {
  const { a } = basis;
  const duty = a.value('burning duty');
  return plan.map(({ item, rods, crew, burnTime, cooling: planned, operation }) => {
    const names = operation?.crewTimes ?? PIN_TIMES;
    const sum = (of: (name: NumberName) => boolean): number =>
      names.filter(of).reduce((time, name) => time + a.value(name), 0);
    const after = sum((name) => AFTER.includes(name));
    const before = sum((name) => !AFTER.includes(name));
    const hot = burnTime / duty + rods.value * a.value('rod change time');
    const rest = crew.value - before - hot - after;
    // A second either way is the rounding of what stands in the sheet.
    if (planned === undefined && rest < -1) {
      const shrink = Math.max(0, crew.value - burnTime) / (before + hot + after - burnTime);
      return {
        item,
        before: before * shrink,
        hot: burnTime + (hot - burnTime) * shrink,
        burning: burnTime,
        cooling: 0,
        after: after * shrink,
        note: planTimesDiffer(),
      };
    }
    return { item, before, hot, burning: burnTime, cooling: planned ?? Math.max(0, rest), after, note: '' };
  });
}

interface Limits {
  readonly shift: number;
  /** Latest end of hot work in a shift. */
  readonly hotUntil: number;
  /** Burning time that fills the noise dose; Infinity where the noise does not count. */
  readonly noiseTime: number;
}

interface Burnt {
  readonly stages: Stages;
  readonly shift: number;
  readonly start: number;
  readonly hotFrom: number;
  readonly hotTo: number;
  readonly dose: number;
  /** When it has cooled, counted through all shifts at `shift` each but cooling on through the night. */
  readonly cool: number;
}

interface Crew {
  readonly number: number;
  shift: number;
  time: number;
  dose: number;
  burnt: Burnt[];
  idle: number;
}

/** Rules by which a crew that may do both chooses: press out what is cold, or light the next. */
type Preference = 'push' | 'burn';

const TOLERANCE = 1e-6;
/** For texts: to a hundredth of an hour. */
const rounded = (time: number): number => Math.round(time / 36) * 36;

/** Whether an item has cooled by a time of a shift; a night between two shifts cools anything. */
function isCool(burnt: Burnt, shift: number, time: number): boolean {
  return shift > burnt.shift || burnt.cool <= time + TOLERANCE;
}

/** One pass over the items in a given order. The crew that is free soonest takes the next step. */
function layOut(
  items: readonly Stages[],
  crews: number,
  limits: Limits,
  preference: Preference,
): { readonly slots: Slot[]; readonly idle: number } {
  const queue = [...items];
  const all: Crew[] = Array.from({ length: crews }, (_, i) => ({
    number: i + 1,
    shift: 1,
    time: 0,
    dose: 0,
    burnt: [],
    idle: 0,
  }));
  const slots: Slot[] = [];
  const open = (): Crew[] => all.filter((c) => queue.length > 0 || c.burnt.length > 0);
  for (let working = open(); working.length > 0; working = open()) {
    const crew = working.reduce((x, y) =>
      y.shift < x.shift || (y.shift === x.shift && y.time < x.time - TOLERANCE) ? y : x,
    );
    const fits = ({ before, hot, burning }: Stages): boolean =>
      crew.time + before + hot <= limits.hotUntil + TOLERANCE &&
      crew.dose + burning / limits.noiseTime <= 1 + TOLERANCE;
    const next = queue.findIndex(fits);
    const cold = crew.burnt.filter(
      (b) => isCool(b, crew.shift, crew.time) && crew.time + b.stages.after <= limits.shift + TOLERANCE,
    );
    const push = cold[0];
    if (push && (preference === 'push' || next < 0)) {
      slots.push({
        stages: push.stages,
        crew: crew.number,
        shift: push.shift,
        start: push.start,
        hotFrom: push.hotFrom,
        hotTo: push.hotTo,
        dose: push.dose,
        pushShift: crew.shift,
        pushFrom: crew.time,
        done: crew.time + push.stages.after,
      });
      crew.burnt = crew.burnt.filter((b) => b !== push);
      crew.time += push.stages.after;
    } else if (next >= 0) {
      const [stages] = queue.splice(next, 1) as [Stages];
      const hotFrom = crew.time + stages.before;
      const hotTo = hotFrom + stages.hot;
      crew.dose += stages.burning / limits.noiseTime;
      crew.burnt.push({
        stages,
        shift: crew.shift,
        start: crew.time,
        hotFrom,
        hotTo,
        dose: crew.dose,
        cool: hotTo + stages.cooling,
      });
      crew.time = hotTo;
    } else {
      // Nothing can be done now: wait for the next pin to cool, or go home.
      const soonest = Math.min(
        ...crew.burnt
          .filter((b) => b.shift === crew.shift && b.cool > crew.time && b.cool + b.stages.after <= limits.shift)
          .map((b) => b.cool),
      );
      if (soonest < Infinity) {
        crew.idle += soonest - crew.time;
        crew.time = soonest;
      } else {
        crew.shift += 1;
        crew.time = 0;
        crew.dose = 0;
      }
    }
  }
  return {
    slots: slots.sort((x, y) => x.shift - y.shift || x.start - y.start || x.crew - y.crew),
    idle: all.reduce((sum, c) => sum + c.idle, 0),
  };
}

const lastOf = (slots: readonly Slot[]): { readonly shifts: number; readonly end: number } =>
  slots.reduce(
    ({ shifts, end }, s) =>
      s.pushShift > shifts
        ? { shifts: s.pushShift, end: s.done }
        : { shifts, end: s.pushShift === shifts ? Math.max(end, s.done) : end },
    { shifts: 0, end: 0 },
  );

/**
 * Lays out a job in shifts: while one pin cools the crew burns the next or presses out a cold one.
 *
 * Hot work ends early enough for the fire watch to end within the shift, and a burner's noise dose, protectors
 * counted, stays within the rule's. Cooling goes on between shifts. The order as listed, longest cooling first and
 * longest burning first are each tried with both ways to choose between pressing and burning; the one that is done
 * soonest is kept, of equals the first. Steps of one item stay with one crew.
 *
 * `crews` whole, 1 or more; `shift` [s]. Limits: assumptions `burning noise`, `protector reduction`, `noise rule` and
 * `fire watch rule`. Longest lag first: Mitten 1959.
 */
export function jobSchedule(plan: readonly PlanRow[], crews: number, shift: number, basis: Basis): Schedule {
  const { a } = basis;
  const rule = findNoiseRule(a.word('noise rule'));
  const { watch, name: watchRule } = fireWatch(a.word('fire watch rule'));
  const allowed = (level: number): number =>
    level < rule.countedFrom ? Infinity : noiseHours(Math.max(level, NOISE_RANGE.quietest), rule);
  const noise = a.value('burning noise');
  const limits: Limits = { shift, hotUntil: shift - watch, noiseTime: allowed(noise - a.value('protector reduction')) };
  const left: Stages[] = [];
  const fitting: Stages[] = [];
  for (const s of stagesOf(plan, basis)) {
    const needs = Math.max(s.before + s.hot + watch, s.after);
    const reason =
      needs > shift + TOLERANCE
        ? doesNotFitShift(
            showQuantity(rounded(needs), 'hours', a.system),
            showQuantity(rounded(shift), 'hours', a.system),
          )
        : s.burning > limits.noiseTime * (1 + TOLERANCE)
          ? itemOverNoiseLimit(
              showQuantity(rounded(s.burning), 'time', a.system),
              showQuantity(rounded(limits.noiseTime), 'time', a.system),
              rule.name,
            )
          : '';
    if (reason === '') fitting.push(s);
    else left.push({ ...s, note: reason });
  }
  const orders = [
    fitting,
    [...fitting].sort((x, y) => y.cooling - x.cooling),
    [...fitting].sort((x, y) => y.before + y.hot - (x.before + x.hot)),
  ];
  const tries = orders.flatMap((order) =>
    (['push', 'burn'] as const).map((preference) => layOut(order, crews, limits, preference)),
  );
  const best = tries.reduce((x, y) => {
    const [one, other] = [lastOf(x.slots), lastOf(y.slots)];
    return other.shifts < one.shifts || (other.shifts === one.shifts && other.end < one.end - TOLERANCE) ? y : x;
  });
  const { shifts, end } = lastOf(best.slots);
  const lastHot = Array.from({ length: shifts }, (_, i): number | undefined => {
    const ends = best.slots.filter((s) => s.shift === i + 1).map((s) => s.hotTo);
    return ends.length > 0 ? Math.max(...ends) : undefined;
  });
  const bare = allowed(noise);
  const burntIn = new Map<string, number>();
  for (const s of best.slots) {
    const key = `${s.crew} ${s.shift}`;
    burntIn.set(key, (burntIn.get(key) ?? 0) + s.stages.burning);
  }
  return {
    slots: best.slots,
    left,
    shifts,
    end,
    watch,
    watchRule,
    lastHot,
    noiseRule: rule.name,
    bareDose: Math.max(0, ...burntIn.values()) / bare,
    idle: best.idle,
  };
}
