import { Evaluation, type Given } from './evaluation.ts';
import type { AssumptionReader, WorkedStep } from './step.ts';
import type { StepList } from './step-list.ts';

/** A calculation ready to be read: as the value of its result, or step by step. Nothing is worked out before it is asked for. */
export class Working {
  readonly evaluation: Evaluation;
  /** Symbol of the step that is the result. */
  readonly result: string;
  /** Symbols of what is shown besides, with all that it rests on. */
  private readonly besides: readonly string[];

  constructor(evaluation: Evaluation, result: string, besides: readonly string[] = []) {
    evaluation.list.place(result);
    this.evaluation = evaluation;
    this.result = result;
    this.besides = besides;
  }

  get value(): number {
    return this.evaluation.number(this.result);
  }

  /** The steps that the result rests on, and what is shown besides, in order. */
  steps(): readonly WorkedStep[] {
    return this.evaluation.worked([this.result, ...this.besides]);
  }
}

const NONE: AssumptionReader = {
  value: (name) => {
    throw new Error(`no assumptions, so no ${name}`);
  },
  about: (name) => {
    throw new Error(`no assumptions, so no ${name}`);
  },
};

/** A list on what is given and the assumptions in force; the result is the list's first where none is named. */
export function work(list: StepList, given: Given, reader: AssumptionReader = NONE, result?: string): Working {
  return new Working(new Evaluation(list, given, reader), result ?? (list.results[0] as string));
}

/** The value that a list's first result, or the one named, has on what is given. */
export function valueOf(list: StepList, given: Given, result?: string): number {
  return work(list, given, NONE, result).value;
}
