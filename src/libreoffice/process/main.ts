/**
 * Entry of the process beside the program: a line of JSON comes in on standard input for each question, a line goes out
 * with its answer, with bytes behind it where the result is long. It ends when its input does.
 */
import { hostFunctions } from '../../sheet/host-functions.ts';
import { Answers } from './answers.ts';
import { eachLine } from './lines.ts';

const answers = new Answers(hostFunctions, import.meta.dirname, (line, bytes) => {
  process.stdout.write(`${line}\n`);
  if (bytes) process.stdout.write(bytes);
});
eachLine(process.stdin, (line) => answers.take(line));
process.stdin.on('end', () => process.exit());
// The program has gone without closing the pipe.
process.stdout.on('error', () => process.exit());
