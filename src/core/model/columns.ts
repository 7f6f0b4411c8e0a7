import { powers } from './power.ts';

export type Operator = '+' | '-' | '*' | '/' | '^' | 'min' | 'max';

// A loop of its own for each operator, four places at a time: it is what the engine compiles best, and lists of many items spend
// their time here. Four at a time take half the time of one. A function of its own for each, since a first cell waits for each that
// gets hot to be compiled.
type Loop = (a: Float64Array, b: Float64Array, into: Float64Array) => void;

/** So many draws an estimate has: columns as long are added and multiplied by one loop. Those of long lists are not. */
const DRAWS = 1024;
/** Added to a number, the negative zero leaves even the zeros as they are. */
const ZEROS = new Float64Array(DRAWS).fill(-0);
const ONES = new Float64Array(DRAWS).fill(1);

/** The product of `a` and `b`, and `c`: sums and products of a first cell, which waits for one loop to be compiled where it waited for two. */
export function addProduct(a: Float64Array, b: Float64Array, c: Float64Array, into: Float64Array): void {
  const n = into.length;
  let i = 0;
  for (const most = n - 3; i < most; i++) {
    into[i] = a[i]! * b[i]! + c[i]!;
    i++;
    into[i] = a[i]! * b[i]! + c[i]!;
    i++;
    into[i] = a[i]! * b[i]! + c[i]!;
    i++;
    into[i] = a[i]! * b[i]! + c[i]!;
  }
  for (; i < n; i++) into[i] = a[i]! * b[i]! + c[i]!;
}

/** What an operator makes of each two places of columns of one length; `into` may be one of them. */
export const COLUMNS: Readonly<Record<Operator, Loop>> = {
  '+': (a, b, into) => {
    const n = into.length;
    if (n === DRAWS) {
      addProduct(a, ONES, b, into);
      return;
    }
    let i = 0;
    for (const most = n - 3; i < most; i++) {
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
    for (const most = n - 3; i < most; i++) {
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
    if (n === DRAWS) {
      addProduct(a, b, ZEROS, into);
      return;
    }
    let i = 0;
    for (const most = n - 3; i < most; i++) {
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
    for (const most = n - 3; i < most; i++) {
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
    for (const most = n - 3; i < most; i++) {
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
    for (const most = n - 3; i < most; i++) {
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
