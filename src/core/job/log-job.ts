import type { Operation } from '../operations/operation.ts';
import type { Sized } from '../operations/sized.ts';

/** What is noted of a finished job, in the order of the figures below. */
export const CHANNELS = ['rods', 'oxygen', 'burning', 'crew'] as const;
export type Channel = (typeof CHANNELS)[number];

/** A finished job: its item as sized with the assumptions in force, and what it took. */
export interface LogJob {
  /** Row of the log, counted from 1. */
  readonly row: number;
  /** The user's own name for it, or its row. */
  readonly label: string;
  readonly operation: Operation;
  readonly sizing: Sized;
  /** Noted figures, SI, more than 0; undefined where nothing was noted. */
  readonly noted: Readonly<Record<Channel, number | undefined>>;
}

/** Whole rods are half a rod more than the length burned takes, on average. */
export const HALF_ROD = 0.5;

/** ln of a noted figure; whole rods stand for the middle of the lengths that round up to them. */
export function logNoted(job: LogJob, channel: Channel): number {
  const noted = job.noted[channel] ?? NaN;
  return Math.log(channel === 'rods' && Number.isInteger(noted) ? noted - HALF_ROD : noted);
}

export const isNoted = (job: LogJob): boolean => CHANNELS.some((c) => job.noted[c] !== undefined);
