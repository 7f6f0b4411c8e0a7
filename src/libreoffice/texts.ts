/** What this host says of itself, beside the messages of the functions. */

/** The program refuses the whole call then, before any function sees it. */
export const errorInArgument = (argument: string): string =>
  `${argument} holds an error, and LibreOffice hands no such cells to a function. Mend that cell first, or leave it out with IFERROR(${argument};"").`;
export const notOurs = (error: string): string => `The error ${error} does not come from a BURN function.`;
export const NONE_OF_OURS = 'The formula calls no BURN function.';
