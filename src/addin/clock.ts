/** Time that only goes on [ms]; a runtime without a page may have no better clock than the day's. */
export const pageTime = (): number => (typeof performance === 'undefined' ? Date.now() : performance.now());
