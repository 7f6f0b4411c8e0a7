/** Texts of the pane that say what it cannot do, in one place. */
export const ownCell = (text: string): string =>
  `${text} is a formula of its own, which the pane cannot read; put it in a cell of its own and point to that cell`;
export const notOneNumber = (reference: string): string => `${reference} is not a single number`;
export const noNumber = (text: string): string => `${text} does not give a number`;
export const notRead = (reference: string, reason: string): string => `${reference} could not be read: ${reason}`;
export const unreadInside = (call: string, problem: string): string =>
  `${call} inside could not be worked out: ${problem}`;
export const noSuchFunction = (name: string, nearest: readonly string[]): string =>
  `There is no function ${name}. Nearest: ${nearest.join(', ')}.`;

/** Stands with every caution and every result. */
export const RULES =
  'These are estimates to plan with. Local codes, the employer’s permit and licensed or qualified people rule, and decide on the spot.';

/** Of a row of a job's plan. */
export const workingOfOne = (pieces: number): string =>
  `The working is that of one piece; rods, oxygen and times of the row are for all ${pieces}.`;
