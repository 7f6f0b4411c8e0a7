/** The part of the independent statistics library that the tests use; it ships no types. */
declare module 'jstat' {
  interface Library {
    readonly beta: {
      cdf(x: number, a: number, b: number): number;
      inv(p: number, a: number, b: number): number;
      mean(a: number, b: number): number;
      variance(a: number, b: number): number;
    };
    readonly normal: {
      cdf(x: number, mean: number, deviation: number): number;
      inv(p: number, mean: number, deviation: number): number;
    };
    readonly quantiles: (values: readonly number[], p: readonly number[], alpha: number, beta: number) => number[];
    readonly gammaln: (x: number) => number;
  }
  const jstat: { readonly jStat: Library };
  export default jstat;
}
