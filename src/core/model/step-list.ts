import { parseFormula, symbolsOf, type Formula } from './grammar.ts';
import type { Step } from './step.ts';

/** A step with what it is calculated from. */
export interface Node {
  readonly step: Step;
  /** Places of the steps that it uses itself. */
  readonly uses: readonly number[];
  /** Places of all that it rests on, its own among them. */
  readonly restsOn: ReadonlySet<number>;
  readonly formula: Formula | undefined;
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
      const parsed = 'expression' in from ? parseFormula(from.expression) : undefined;
      const symbols = parsed ? symbolsOf(parsed) : 'solve' in from ? solvedFrom(from) : [];
      const uses = symbols.map((symbol) => {
        const place = places.get(symbol);
        if (place === undefined) throw new Error(`step ${step.symbol} uses ${symbol}, which is no earlier step`);
        return place;
      });
      const formula = parsed && placed(parsed, places);
      const place = nodes.length;
      const restsOn = new Set([place]);
      for (const use of uses) for (const each of (nodes[use] as Node).restsOn) restsOn.add(each);
      places.set(step.symbol, place);
      nodes.push({ step, uses, restsOn, formula });
    }
    this.nodes = nodes;
    this.places = places;
    this.results = results;
    const needed = this.neededFor(results);
    const idle = nodes.find((_, place) => !needed.has(place));
    if (idle) throw new Error(`step ${idle.step.symbol} is used by nothing and is no result`);
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
    const needed = new Set<number>();
    for (const symbol of results) for (const each of (this.nodes[this.place(symbol)] as Node).restsOn) needed.add(each);
    return new Set([...needed].sort((a, b) => a - b));
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

/** A formula with the places of its symbols in the list. */
function placed(f: Formula, places: ReadonlyMap<string, number>): Formula {
  const each = (g: Formula): Formula => placed(g, places);
  switch (f.kind) {
    case 'number':
    case 'pi':
      return f;
    case 'symbol':
      return { ...f, place: places.get(f.symbol) as number };
    case 'negative':
      return { ...f, of: each(f.of) };
    case 'binary':
      return { ...f, left: each(f.left), right: each(f.right) };
    case 'call':
      return { ...f, of: f.of.map(each) };
    case 'if':
      return { ...f, left: each(f.left), right: each(f.right), then: each(f.then), otherwise: each(f.otherwise) };
  }
}

/** Whether two steps of one symbol say the same, so that lists that share a part can be put together. */
function alike(a: Step, b: Step): boolean {
  const text = ({ from, ...rest }: Step): string =>
    JSON.stringify([rest.name, rest.quantity, 'solve' in from ? from.solve : from]);
  return a === b || text(a) === text(b);
}
