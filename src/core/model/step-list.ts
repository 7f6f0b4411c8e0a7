import { parseFormula, symbolsOf, type Formula } from './grammar.ts';
import type { Step } from './step.ts';

/** A step with what it is calculated from. */
export class Node {
  readonly step: Step;
  /** Places of the steps that it uses itself. */
  readonly uses: readonly number[];
  private readonly places: ReadonlyMap<string, number>;
  private parsed: Formula | undefined;

  constructor(step: Step, uses: readonly number[], places: ReadonlyMap<string, number>) {
    this.step = step;
    this.uses = uses;
    this.places = places;
  }

  /** Read when it is first asked for: of a long list many are not. */
  get formula(): Formula | undefined {
    const { from } = this.step;
    if (!this.parsed && 'expression' in from) this.parsed = parseFormula(from.expression, this.places);
    return this.parsed;
  }
}

/**
 * A calculation as data: steps in order, each from earlier ones. Built once and read in several ways: as values (`Evaluation`),
 * as a working, by their dimensions, as plain cells.
 *
 * A symbol that is unknown or stands later, a symbol with two meanings, and a step that nothing rests on and that is not
 * among the `results` are faults of the program.
 */
export class StepList {
  readonly nodes: readonly Node[];
  readonly results: readonly string[];
  private readonly places: ReadonlyMap<string, number>;

  constructor(steps: readonly Step[], results: readonly string[]) {
    const places = new Map<string, number>();
    const nodes: Node[] = [];
    for (const step of steps) {
      const before = places.get(step.symbol);
      if (before !== undefined) {
        if (!alike(step, (nodes[before] as Node).step)) throw new Error(`step ${step.symbol} has two meanings`);
        continue;
      }
      const { from } = step;
      const symbols = 'expression' in from ? symbolsOf(from.expression) : 'solve' in from ? solvedFrom(from) : [];
      const uses = symbols.map((symbol) => {
        const place = places.get(symbol);
        if (place === undefined) throw new Error(`step ${step.symbol} uses ${symbol}, no earlier step`);
        return place;
      });
      places.set(step.symbol, nodes.length);
      nodes.push(new Node(step, uses, places));
    }
    this.nodes = nodes;
    this.places = places;
    this.results = results;
    const needed = this.needs(results);
    const idle = nodes.find((_, place) => needed[place] === 0);
    if (idle) throw new Error(`step ${idle.step.symbol} serves nothing`);
  }

  has(symbol: string): boolean {
    return this.places.has(symbol);
  }

  /** Place of a step in the list. */
  place(symbol: string): number {
    const place = this.places.get(symbol);
    if (place === undefined) throw new Error(`no step ${symbol}`);
    return place;
  }

  step(symbol: string): Step {
    return (this.nodes[this.place(symbol)] as Node).step;
  }

  /** Places of the steps that some results rest on, in the order of the list. */
  neededFor(results: readonly string[]): ReadonlySet<number> {
    const needed = this.needs(results);
    return new Set(Array.from(needed.keys()).filter((place) => needed[place] === 1));
  }

  /** Of each place, whether some results rest on it, as 1 or 0. */
  private needs(results: readonly string[]): Uint8Array {
    const needed = new Uint8Array(this.nodes.length);
    for (const symbol of results) needed[this.place(symbol)] = 1;
    for (let place = needed.length - 1; place >= 0; place--)
      if (needed[place] === 1) for (const use of (this.nodes[place] as Node).uses) needed[use] = 1;
    return needed;
  }

  /** Of each place, whether it is one of these or rests on one, as 1 or 0. */
  restingOn(places: readonly number[]): Uint8Array {
    const resting = new Uint8Array(this.nodes.length);
    for (const place of places) resting[place] = 1;
    this.nodes.forEach(({ uses }, place) => {
      for (const use of uses) if (resting[use] === 1) resting[place] = 1;
    });
    return resting;
  }

  /** Names of the assumptions that some results rest on, those that decided their steps among them. */
  assumptionsOf(...results: readonly string[]): ReadonlySet<string> {
    const names = new Set<string>();
    for (const place of this.neededFor(results)) {
      const { from, decidedBy = [] } = (this.nodes[place] as Node).step;
      if ('assumption' in from) names.add(from.assumption);
      for (const name of decidedBy) names.add(name);
    }
    return names;
  }
}

/** What a solved step is found from, last the step that says where it is. */
const solvedFrom = ({
  solve,
  where,
}: {
  readonly solve: readonly string[];
  readonly where?: string;
}): readonly string[] => (where === undefined ? solve : [...solve, where]);

/** Whether two steps of one symbol say the same, so that lists that share a part can be put together. */
function alike(a: Step, b: Step): boolean {
  const text = ({ from, ...rest }: Step): string =>
    JSON.stringify([rest.name, rest.quantity, 'solve' in from ? from.solve : from]);
  return a === b || text(a) === text(b);
}
