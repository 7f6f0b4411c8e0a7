/** Fill of the cells that are the user's to change: strong enough to be yellow still where a dark look turns light into dark. */
export const YELLOW = '#fff0b3';
