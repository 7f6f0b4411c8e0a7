/** Items that differ, from which on a list is long: it is worked out in columns, by what a page fetches then. */
export const LONG = 1000;
