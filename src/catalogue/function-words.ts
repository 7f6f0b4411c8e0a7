import { CATALOGUE } from './catalogue.ts';
import { assumeParameter, type Parameter } from './declaration.ts';

/** What is told of the functions to a reader; no figure rests on it. */
export interface FunctionWords {
  /** Of each function, in the order of the catalogue. */
  readonly functions: readonly (readonly [family: string, summary: string, ...examples: readonly string[]])[];
  /** Of each parameter, in the order in which the functions have them; of one that several share once. */
  readonly parameters: readonly (readonly [summary: string, example: string])[];
}

const parametersOfAll = (): ReadonlySet<Parameter> =>
  new Set([...CATALOGUE.flatMap(({ parameters }) => Object.values(parameters)), assumeParameter]);

/** The words of all functions. */
export const functionWords = (): FunctionWords => ({
  functions: CATALOGUE.map(({ family, summary, examples }) => [family, summary, ...examples] as const),
  parameters: Array.from(parametersOfAll(), ({ summary, example }) => [summary, example] as const),
});

/**
 * Puts words back that a build took out of the declarations (`words-apart.mjs`).
 *
 * @example giveWords(functionWords()) // changes nothing
 */
export function giveWords({ functions, parameters }: FunctionWords): void {
  CATALOGUE.forEach((d, i) => {
    const [family, summary, ...examples] = functions[i]!;
    Object.assign(d, { family, summary, examples });
  });
  Array.from(parametersOfAll()).forEach((p, i) => {
    const [summary, example] = parameters[i]!;
    Object.assign(p, { summary, example });
  });
}
