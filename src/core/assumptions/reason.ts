import { joined } from '../messages.ts';

/** What a user says of a value of theirs; '' where nothing is said. */
export interface Reason {
  readonly why: string;
  readonly by: string;
  /** As a calendar day, where the cell was a date. */
  readonly date: string;
  readonly source: string;
}

/** What stands in place of a reason that nobody gave. */
export const NO_REASON = 'no reason given';

/** A reason as one text: `weighed on site; load slip 4 (R. Vale, 2026-11-20)`. */
export function reasonText(reason: Reason | undefined): string {
  if (!reason) return NO_REASON;
  const { why, by, date, source } = reason;
  const said = joined([why === '' ? NO_REASON : why, source]);
  const signed = [by, date].filter((part) => part !== '').join(', ');
  return signed === '' ? said : `${said} (${signed})`;
}
