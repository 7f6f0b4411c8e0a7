import { BooleanNumber } from '@univerjs/core';
import { FunctionType } from '@univerjs/engine-formula';
import type { IFunctionInfo } from '@univerjs/engine-formula';
import type { HostFunction } from '../sheet/host-function.ts';

/** Name of the group our functions stand in, in the sheet's list of functions. */
export const FUNCTION_GROUP = 'Rod work';

/** What the sheet shows while a function's name or its arguments are typed. */
export function functionTexts(functions: readonly HostFunction[]): IFunctionInfo[] {
  return functions.map((f) => ({
    functionName: f.name,
    // A group that the sheet leaves empty; its heading is renamed to FUNCTION_GROUP.
    functionType: FunctionType.Univer,
    abstract: f.summary,
    description: f.summary,
    functionParameter: f.parameters.map((p) => ({
      name: p.name,
      detail: p.summary,
      example: p.example,
      require: p.optional ? BooleanNumber.FALSE : BooleanNumber.TRUE,
      repeat: BooleanNumber.FALSE,
    })),
  }));
}
