import { Evaluation, type Given } from './evaluation.ts';
import type { AssumptionReader, Step, WorkedStep } from './step.ts';
import { StepList } from './step-list.ts';

/** What a working says beyond its list. */
export interface Said {
  /** The formula in words of some steps, where it is this item's own: why a rod was picked. */
  readonly words?: Readonly<Record<string, string>>;
  /** Assumptions that decided which list it is. */
  readonly decidedBy?: readonly string[];
}

/** A calculation ready to be read: as the value of its result, or step by step. Nothing is worked out before it is asked for. */
export class Working {
  readonly evaluation: Evaluation;
  /** Symbol of the step that is the result. */
  readonly result: string;
  /** Symbols of what is shown besides, with all that it rests on. */
  private readonly besides: readonly string[];
  private readonly said: Said;

  constructor(evaluation: Evaluation, result: string, besides: readonly string[] = [], said: Said = {}) {
    evaluation.list.place(result);
    this.evaluation = evaluation;
    this.result = result;
    this.besides = besides;
    this.said = said;
  }

  get value(): number {
    return this.evaluation.number(this.result);
  }

  /** The steps that the result rests on, and what is shown besides, in order. */
  steps(): readonly WorkedStep[] {
    return this.evaluation.worked([this.result, ...this.besides], this.said.words);
  }

  /** Names of the assumptions that all of it rests on, or that decided its steps. */
  assumptions(): ReadonlySet<string> {
    const { list } = this.evaluation;
    return new Set([...list.assumptionsOf(this.result, ...this.besides), ...(this.said.decidedBy ?? [])]);
  }
}

/** For lists without assumptions. */
export const NO_ASSUMPTIONS: AssumptionReader = {
  value: (name) => {
    throw new Error(`no assumptions, so no ${name}`);
  },
  about: (name) => {
    throw new Error(`no assumptions, so no ${name}`);
  },
};

/** A list on what is given and the assumptions in force; the result is the list's first where none is named. */
export function work(
  list: StepList,
  given: Given,
  reader: AssumptionReader = NO_ASSUMPTIONS,
  result: string = list.results[0] as string,
): Working {
  return new Working(new Evaluation(list, given, reader), result);
}

/** Steps that all stand in the working, also those that the result does not rest on as the case is. */
export function workAll(
  steps: readonly Step[],
  given: Given,
  result: string,
  reader: AssumptionReader = NO_ASSUMPTIONS,
): Working {
  const list = new StepList(
    steps,
    steps.map(({ symbol }) => symbol),
  );
  return new Working(new Evaluation(list, given, reader), result, list.results);
}

/** The value that a list's first result, or the one named, has on what is given. */
export function valueOf(list: StepList, given: Given, result?: string): number {
  return work(list, given, NO_ASSUMPTIONS, result).value;
}
