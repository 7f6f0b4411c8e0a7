import { parseArgs, type ParseArgsConfig } from 'node:util';

type Options = NonNullable<ParseArgsConfig['options']>;
type Parsed<O extends Options> = ReturnType<
  typeof parseArgs<{ args: string[]; options: O; allowPositionals: true; strict: true }>
>;

const MOST_SECONDS = 86_400;

/** The options and arguments of a command; `wrong` says what cannot be taken. */
export function readOptions<const O extends Options>(
  args: readonly string[],
  options: O,
): Parsed<O> | { readonly wrong: string } {
  const empty = args.find((arg) => arg.trim() === '');
  if (empty !== undefined) return { wrong: 'An argument is empty.' };
  try {
    return parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
  } catch (thrown) {
    return { wrong: inWords(thrown as NodeJS.ErrnoException) };
  }
}

function inWords({ code, message }: NodeJS.ErrnoException): string {
  const option = /'(?:-\w, )?(-[^\s'=]+)/.exec(message)?.[1] ?? '';
  if (code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION')
    return `There is no option ${option}; what begins with - and is none stands after --.`;
  return message.includes('does not take') ? `${option} takes no value.` : `${option} needs a value.`;
}

/** A limit of time; undefined where the text is none. */
export function readSeconds(text: string): number | undefined {
  const seconds = Number(text);
  return seconds > 0 && seconds <= MOST_SECONDS ? seconds : undefined;
}
