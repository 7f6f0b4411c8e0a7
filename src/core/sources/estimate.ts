import type { Source } from './source.ts';

/** What spread, stock, cost, schedule and calibration rest on. */
export const ESTIMATE_SOURCES = [
  {
    key: 'pert',
    citation:
      'Malcolm, Roseboom, Clark and Fazar, Application of a technique for research and development program evaluation, Operations Research 7 (1959) 646; Clark, The PERT model for the distribution of an activity time, Operations Research 10 (1962) 405',
    edition: '1959, 1962',
    usedFor: 'Distribution of a factor with low, likely and high',
  },
  {
    key: 'sobol',
    citation:
      'Joe and Kuo, Constructing Sobol sequences with better two-dimensional projections, SIAM Journal on Scientific Computing 30 (2008) 2635; Owen, Randomly permuted (t,m,s)-nets and (t,s)-sequences, 1995',
    edition: '2008, 1995',
    usedFor: 'Evenly spread draws of the shared factors, scrambled with a fixed seed',
  },
  {
    key: 'latin hypercube',
    citation:
      'McKay, Beckman and Conover, A comparison of three methods for selecting values of input variables, Technometrics 21 (1979) 239',
    edition: '1979',
    usedFor: 'Own scatter of many items: equally likely strata in an order of its own for each item',
  },
  {
    key: 'percentile',
    citation:
      'Hyndman and Fan, Sample quantiles in statistical packages, The American Statistician 50 (1996) 361, definition 7',
    edition: '1996',
    usedFor: 'Percentiles of draws',
  },
  {
    key: 'bayes',
    citation: 'Gelman, Carlin, Stern, Dunson, Vehtari and Rubin, Bayesian Data Analysis, chapters 4 and 13',
    edition: '3rd edition, 2013',
    usedFor: 'Update of the factors from a log, by normal approximation',
  },
  {
    key: 'huber',
    citation: 'Huber and Ronchetti, Robust Statistics, chapter 7',
    edition: '2nd edition, 2009',
    usedFor: 'Lesser weight of a job that contradicts the others',
  },
  {
    key: 'johnson',
    citation:
      'Mitten, Sequencing n jobs on two machines with arbitrary time lags, Management Science 5 (1959) 293, after Johnson 1954',
    edition: '1959 (from memory, not verified)',
    usedFor: 'That long coolings start first; the schedule tries several orders and keeps the soonest',
  },
  {
    key: 'aace 34r-05',
    citation: 'AACE International, Recommended Practice 34R-05, Basis of Estimate',
    edition: 'as published summaries quote it',
    usedFor: 'What the basis of an estimate tells',
  },
  {
    key: 'aace 18r-97',
    citation:
      'AACE International, Recommended Practice 18R-97, Cost Estimate Classification System; outer limits as summaries give them',
    edition: '2020',
    usedFor: 'Classes of estimates and the range expected of each',
  },
] as const satisfies readonly Source[];
