import { powers } from './power.ts';

export type Operator = '+' | '-' | '*' | '/' | '^' | 'min' | 'max';

// A loop of its own for each operator, four places at a time: it is what the engine compiles best, and lists of many items spend
// their time here. Four at a time take half the time of one. A function of its own for each, since a first cell waits for each that
// gets hot to be compiled.
type Loop = (a: Float64Array, b: Float64Array, into: Float64Array) => void;

/** What an operator makes of each two places of columns of one length; `into` may be one of them. */
export const COLUMNS: Readonly<Record<Operator, Loop>> = {
  '+': (a, b, into) => {
    const n = into.length;
    let i = 0;
    for (const fours = n - (n % 4); i < fours; i++) {
      into[i] = a[i]! + b[i]!;
      i++;
      into[i] = a[i]! + b[i]!;
      i++;
      into[i] = a[i]! + b[i]!;
      i++;
      into[i] = a[i]! + b[i]!;
    }
    for (; i < n; i++) into[i] = a[i]! + b[i]!;
  },
  '-': (a, b, into) => {
    const n = into.length;
    let i = 0;
    for (const fours = n - (n % 4); i < fours; i++) {
      into[i] = a[i]! - b[i]!;
      i++;
      into[i] = a[i]! - b[i]!;
      i++;
      into[i] = a[i]! - b[i]!;
      i++;
      into[i] = a[i]! - b[i]!;
    }
    for (; i < n; i++) into[i] = a[i]! - b[i]!;
  },
  '*': (a, b, into) => {
    const n = into.length;
    let i = 0;
    for (const fours = n - (n % 4); i < fours; i++) {
      into[i] = a[i]! * b[i]!;
      i++;
      into[i] = a[i]! * b[i]!;
      i++;
      into[i] = a[i]! * b[i]!;
      i++;
      into[i] = a[i]! * b[i]!;
    }
    for (; i < n; i++) into[i] = a[i]! * b[i]!;
  },
  '/': (a, b, into) => {
    const n = into.length;
    let i = 0;
    for (const fours = n - (n % 4); i < fours; i++) {
      into[i] = a[i]! / b[i]!;
      i++;
      into[i] = a[i]! / b[i]!;
      i++;
      into[i] = a[i]! / b[i]!;
      i++;
      into[i] = a[i]! / b[i]!;
    }
    for (; i < n; i++) into[i] = a[i]! / b[i]!;
  },
  '^': powers,
  min: (a, b, into) => {
    const n = into.length;
    let i = 0;
    for (const fours = n - (n % 4); i < fours; i++) {
      into[i] = Math.min(a[i]!, b[i]!);
      i++;
      into[i] = Math.min(a[i]!, b[i]!);
      i++;
      into[i] = Math.min(a[i]!, b[i]!);
      i++;
      into[i] = Math.min(a[i]!, b[i]!);
    }
    for (; i < n; i++) into[i] = Math.min(a[i]!, b[i]!);
  },
  max: (a, b, into) => {
    const n = into.length;
    let i = 0;
    for (const fours = n - (n % 4); i < fours; i++) {
      into[i] = Math.max(a[i]!, b[i]!);
      i++;
      into[i] = Math.max(a[i]!, b[i]!);
      i++;
      into[i] = Math.max(a[i]!, b[i]!);
      i++;
      into[i] = Math.max(a[i]!, b[i]!);
    }
    for (; i < n; i++) into[i] = Math.max(a[i]!, b[i]!);
  },
};
