/** How the pressure in the cylinder in use goes over the shifts of a job. */
import { gaugeAfter } from '../oxygen/gauge-after.ts';
import type { Job } from './job-list.ts';
import type { Schedule, Slot } from './job-schedule.ts';

/** The gauge at a time of a shift [s]. */
export interface PressurePoint {
  readonly shift: number;
  readonly time: number;
  /** Gauge, at rest at the gas temperature [Pa]. */
  readonly pressure: number;
  /** Which of the job's cylinders is in use, from 1. */
  readonly cylinder: number;
}

/** Time in which a piece draws [s]. */
interface Draw {
  readonly from: number;
  readonly to: number;
  /** [kg/s] */
  readonly rate: number;
}

/** A piece draws evenly while it burns, but for the time that cylinders are changed. */
function drawsOf({ hotFrom, hotTo, changes, stages }: Slot, changeTime: number): readonly Draw[] {
  const starts = [hotFrom, ...changes.map((time) => time + changeTime)];
  const ends = [...changes, hotTo];
  const rate = stages.oxygen / stages.hot;
  return starts.flatMap((from, i) => (ends[i]! > from ? [{ from, to: ends[i]!, rate }] : []));
}

const TOLERANCE = 1e-9;

/**
 * The pressure in the cylinder in use, point by point: where a piece begins or ends, and before and after each change. All crews
 * are counted as if they drew from the same cylinders, as `jobSchedule` counts them. Empty where no cylinder can be drawn.
 */
export function cylinderPressures(job: Job, { slots, cylinders, shifts }: Schedule): readonly PressurePoint[] {
  if (cylinders === undefined) return [];
  const { basis, content } = job;
  const changeTime = basis.a.value('cylinder change time');
  const points: PressurePoint[] = [];
  let drawn = 0;
  let opened = 1;
  const add = (shift: number, time: number): void => {
    const served = Math.min(content, Math.max(0, drawn - (opened - 1) * content));
    points.push({ shift, time, pressure: gaugeAfter(served, basis), cylinder: opened });
  };
  for (let shift = 1; shift <= shifts; shift++) {
    const draws = slots.filter((s) => s.shift === shift).flatMap((s) => drawsOf(s, changeTime));
    const times = [...new Set(draws.flatMap(({ from, to }) => [from, to]))].sort((x, y) => x - y);
    times.slice(0, -1).forEach((from, i) => {
      const to = times[i + 1]!;
      const rate = draws.reduce((sum, d) => (d.from <= from && d.to >= to ? sum + d.rate : sum), 0);
      if (rate === 0) return;
      // A full one was put on before, where the last is used up.
      if (drawn >= opened * content * (1 - TOLERANCE)) opened++;
      add(shift, from);
      const end = drawn + rate * (to - from);
      for (;;) {
        const change = opened * content;
        if (change >= end * (1 - TOLERANCE)) break;
        const time = from + ((change - drawn) / (end - drawn)) * (to - from);
        const [before, after] = [drawn, change];
        drawn = after;
        add(shift, time);
        opened++;
        add(shift, time);
        drawn = before;
      }
      drawn = end;
      add(shift, to);
    });
  }
  return points;
}
