import { formulaTokens, isOperator, isRange, readReference, TYPES, type FormulaToken } from './formula-tokens.ts';

/**
 * Functions that came after the format and stand in a file under a prefix, without which the host does not know them.
 * Source: [MS-XLSX] 2.2.2, future-function-list; put together from memory, so a newer one may be missing.
 */
const FUTURE = new Set(
  (
    'ACOT ACOTH AGGREGATE ANCHORARRAY ARABIC ARRAYTOTEXT BASE BETA.DIST BETA.INV BINOM.DIST BINOM.DIST.RANGE BINOM.INV BITAND BITLSHIFT BITOR ' +
    'BITRSHIFT BITXOR BYCOL BYROW CEILING.MATH CEILING.PRECISE CHISQ.DIST CHISQ.DIST.RT CHISQ.INV CHISQ.INV.RT CHISQ.TEST CHOOSECOLS ' +
    'CHOOSEROWS COMBINA CONCAT CONFIDENCE.NORM CONFIDENCE.T COT COTH COVARIANCE.P COVARIANCE.S CSC CSCH DAYS DECIMAL DROP ERF.PRECISE ' +
    'ERFC.PRECISE EXPAND EXPON.DIST F.DIST F.DIST.RT F.INV F.INV.RT F.TEST FLOOR.MATH FLOOR.PRECISE FORECAST.LINEAR FORMULATEXT GAMMA ' +
    'GAMMA.DIST GAMMA.INV GAMMALN.PRECISE GAUSS HSTACK HYPGEOM.DIST IFNA IFS ISFORMULA ISO.CEILING ISOMITTED ISOWEEKNUM LAMBDA LET ' +
    'LOGNORM.DIST LOGNORM.INV MAKEARRAY MAP MAXIFS MINIFS MODE.MULT MODE.SNGL MUNIT NEGBINOM.DIST NETWORKDAYS.INTL NORM.DIST NORM.INV ' +
    'NORM.S.DIST NORM.S.INV NUMBERVALUE PDURATION PERCENTILE.EXC PERCENTILE.INC PERCENTRANK.EXC PERCENTRANK.INC PERMUTATIONA PHI ' +
    'POISSON.DIST QUARTILE.EXC QUARTILE.INC RANDARRAY RANK.AVG RANK.EQ REDUCE RRI SCAN SEC SECH SEQUENCE SHEET SHEETS SINGLE SKEW.P ' +
    'SORTBY STDEV.P STDEV.S SWITCH T.DIST T.DIST.2T T.DIST.RT T.INV T.INV.2T T.TEST TAKE TEXTAFTER TEXTBEFORE TEXTJOIN TEXTSPLIT TOCOL ' +
    'TOROW UNICHAR UNICODE UNIQUE VALUETOTEXT VAR.P VAR.S VSTACK WEIBULL.DIST WORKDAY.INTL WRAPCOLS WRAPROWS XLOOKUP XMATCH XOR Z.TEST'
  ).split(' '),
);
const FUTURE_OF_THE_SHEET = new Set(['FILTER', 'SORT']);

/** Functions that take a range whole, so that it needs no array formula. */
const TAKES_RANGES = new Set(
  (
    'SUM COUNT COUNTA COUNTBLANK COUNTIF COUNTIFS SUMIF SUMIFS SUMPRODUCT SUMSQ AVERAGE AVERAGEA AVERAGEIF AVERAGEIFS MAX MAXA MAXIFS MIN ' +
    'MINA MINIFS PRODUCT MEDIAN MODE MODE.SNGL STDEV STDEV.P STDEV.S STDEVP VAR VAR.P VAR.S VARP LARGE SMALL RANK RANK.EQ RANK.AVG ' +
    'PERCENTILE PERCENTILE.INC PERCENTILE.EXC QUARTILE QUARTILE.INC QUARTILE.EXC SUBTOTAL AGGREGATE INDEX MATCH XMATCH LOOKUP VLOOKUP ' +
    'HLOOKUP XLOOKUP ROWS COLUMNS AND OR XOR CONCAT TEXTJOIN OFFSET AREAS CORREL SLOPE INTERCEPT FORECAST NPV IRR GEOMEAN HARMEAN ' +
    'DEVSQ SKEW KURT TRIMMEAN ISREF SHEET FORMULATEXT ISFORMULA CELL'
  ).split(' '),
);

export interface StoredForm {
  /** Without `=`, as the host stores it. */
  readonly text: string;
  /** Whether one of our functions is in it. */
  readonly ours: boolean;
  /** Whether the host has to be told that it reads a range value by value, or else it would take one of its cells. */
  readonly array: boolean;
}

/** A formula, without `=`, as the host stores it. */
export function storedForm(formula: string): StoredForm {
  const tokens = formulaTokens(formula);
  const own = ownNames(tokens);
  const open: string[] = [];
  const pieces: string[] = [];
  let ours = false;
  let array = false;
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i]!;
    if (token.type === TYPES.FUNCTION) {
      const name = token.value.toUpperCase();
      ours ||= name.startsWith('BURN.');
      pieces.push(functionName(name));
      open.push(name);
      continue;
    }
    if (isOperator(token, '(') && tokens[i - 1]?.type !== TYPES.FUNCTION) open.push('');
    if (isOperator(token, ')')) open.pop();
    if (isRange(token)) {
      const spilled = isOperator(tokens[i + 1], '#');
      array ||= (spilled || isManyCells(token.value)) && isReadByValue(tokens, i, spilled ? 2 : 1, open);
      if (spilled) i++;
      const value = spilled ? `_xlfn.ANCHORARRAY(${token.value})` : token.value;
      if (isOperator(tokens[i - (spilled ? 2 : 1)], '@')) pieces[pieces.length - 1] = `_xlfn.SINGLE(${value})`;
      else pieces.push(value);
      continue;
    }
    pieces.push(
      token.type === TYPES.REF_NAMED && own.has(token.value.toLowerCase()) ? `_xlpm.${token.value}` : token.value,
    );
  }
  return { text: pieces.join(''), ours, array };
}

function functionName(name: string): string {
  if (name.startsWith('BURN.')) return `_xldudf_${name.replaceAll('.', '_')}`;
  if (FUTURE_OF_THE_SHEET.has(name)) return `_xlfn._xlws.${name}`;
  return FUTURE.has(name) ? `_xlfn.${name}` : name;
}

function isManyCells(reference: string): boolean {
  const range = readReference(reference)?.range;
  return (
    range !== undefined &&
    (range.top !== range.bottom || range.left !== range.right || range.top === null || range.left === null)
  );
}

/** Whether an operator or a function of single values reads the range at this place. */
function isReadByValue(tokens: readonly FormulaToken[], at: number, length: number, open: readonly string[]): boolean {
  const operator = (token: FormulaToken | undefined): boolean =>
    token?.type === TYPES.OPERATOR && !'(),:@'.includes(token.value);
  const seen = tokens.filter((t) => t.type !== TYPES.WHITESPACE && t.type !== TYPES.NEWLINE);
  const place = seen.indexOf(tokens[at]!);
  if (isOperator(seen[place - 1], '@')) return false;
  if (operator(seen[place - 1]) || operator(seen[place + length])) return true;
  const name = open.findLast((each) => each !== '') ?? '';
  return name === '' || !(name.startsWith('BURN.') || TAKES_RANGES.has(name));
}

/** The names that LET and LAMBDA declare. */
function ownNames(tokens: readonly FormulaToken[]): ReadonlySet<string> {
  const names = new Set<string>();
  const seen = tokens.filter((t) => t.type !== TYPES.WHITESPACE && t.type !== TYPES.NEWLINE);
  const open: string[] = [];
  seen.forEach((token, i) => {
    if (token.type === TYPES.FUNCTION) open.push(token.value.toUpperCase());
    else if (isOperator(token, '(') && seen[i - 1]?.type !== TYPES.FUNCTION) open.push('');
    else if (isOperator(token, ')')) open.pop();
    const declares = open.at(-1) === 'LET' || open.at(-1) === 'LAMBDA';
    const first = isOperator(seen[i - 1], '(') || isOperator(seen[i - 1], ',');
    if (declares && first && token.type === TYPES.REF_NAMED && isOperator(seen[i + 1], ','))
      names.add(token.value.toLowerCase());
  });
  return names;
}
