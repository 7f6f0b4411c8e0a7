import { tokenize, tokenTypes } from '@borgar/fx';

/** A piece of a formula: `value` in the locale-independent writing, `text` as it stood. */
export interface FormulaToken {
  readonly type: string;
  readonly value: string;
  readonly text: string;
}

export const TYPES = tokenTypes;

export const isOperator = (token: FormulaToken | undefined, ...values: readonly string[]): boolean =>
  token?.type === TYPES.OPERATOR && values.includes(token.value);

export const textOf = (tokens: readonly FormulaToken[]): string =>
  tokens
    .map((t) => t.text)
    .join('')
    .trim();

/**
 * The tokens of a formula, whatever the list separator of the user's locale.
 *
 * A semicolon outside an array constant can only be the list separator of a locale with decimal commas: `3,5` is
 * then a number, and `\` parts the columns of an array constant. Such a formula is turned into the
 * locale-independent writing; a formula without one is taken to be in it already.
 */
export function formulaTokens(formula: string): readonly FormulaToken[] {
  const tokens = read(formula);
  return isLocal(tokens) ? independent(tokens) : tokens;
}

function read(text: string): FormulaToken[] {
  return tokenize(text, { negativeNumbers: false, withLocation: false }).map(({ type, value }) => ({
    type,
    value,
    text: value,
  }));
}

function isLocal(tokens: readonly FormulaToken[]): boolean {
  let inArray = false;
  return tokens.some((t) => {
    if (isOperator(t, '{')) inArray = true;
    if (isOperator(t, '}')) inArray = false;
    return !inArray && isOperator(t, ';');
  });
}

function independent(tokens: readonly FormulaToken[]): FormulaToken[] {
  const split = tokens.flatMap((t) =>
    t.type === TYPES.UNKNOWN && t.value.startsWith('\\') ? [operator('\\'), ...read(t.value.slice(1))] : [t],
  );
  const out: FormulaToken[] = [];
  let inArray = false;
  for (let i = 0; i < split.length; i++) {
    const [token, comma, decimals] = [split[i]!, split[i + 1], split[i + 2]];
    if (isOperator(token, '{')) inArray = true;
    if (isOperator(token, '}')) inArray = false;
    if (token.type === TYPES.NUMBER && isOperator(comma, ',') && decimals?.type === TYPES.NUMBER) {
      out.push({
        type: TYPES.NUMBER,
        value: `${token.value}.${decimals.value}`,
        text: `${token.text},${decimals.text}`,
      });
      i += 2;
    } else if (isOperator(token, ';') && !inArray) out.push(operator(',', ';'));
    else if (isOperator(token, '\\')) out.push(operator(',', '\\'));
    else out.push(token);
  }
  return out;
}

const operator = (value: string, text = value): FormulaToken => ({ type: TYPES.OPERATOR, value, text });
