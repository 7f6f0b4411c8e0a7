/** What run.mjs starts for `template`. */
import { template } from './template/command.ts';

export async function main(args: readonly string[]): Promise<number> {
  const { code, out, err } = await template(args);
  if (out !== '') process.stdout.write(`${out}\n`);
  if (err !== '') process.stderr.write(`${err}\n`);
  return code;
}
