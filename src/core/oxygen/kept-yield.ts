/**
 * What a full cylinder as assumed yields, kept, solved, so that a first cell need not wait for it; `npm run golden` solves it anew.
 * What it is solved from, as `DRAWN_FROM` has it; gas temperature when it is changed [K] and share that comes out.
 */
export const KEPT_DRAW =
  '0.043000000000000003 1300 0.21589999999999998 440 1 10 15168466.044970388 294.2611111111111 1723689.32329209 101325.35318040224 0.006258685766666667 1';
export const KEPT_YIELD = '259.24125897971004 0.9813436115519444';
