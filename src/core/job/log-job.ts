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

export const isNoted = (job: LogJob): boolean => CHANNELS.some((c) => job.noted[c] !== undefined);
