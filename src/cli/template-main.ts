/** What run.mjs starts for `template`. */
import { print } from './print.ts';
import { template } from './template/command.ts';

export const main = async (args: readonly string[]): Promise<number> => print(await template(args));
