/**
 * The grammar of a step's formula: numbers, symbols of other steps, `+ - * / ^`, brackets, `min max ceil floor sqrt ln exp abs`,
 * `if(a < b, x, y)` and PI. Text and nothing else, so that one formula can be calculated, read aloud, checked for its units
 * and written as a spreadsheet formula.
 */
export type BinaryOperator = '+' | '-' | '*' | '/' | '^';
export type FunctionName = 'min' | 'max' | 'ceil' | 'floor' | 'sqrt' | 'ln' | 'exp' | 'abs';
export type Comparison = '<' | '<=' | '>' | '>=';

export type Formula =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'pi' }
  | { readonly kind: 'symbol'; readonly symbol: string; readonly place?: number }
  | { readonly kind: 'negative'; readonly of: Formula }
  | { readonly kind: 'binary'; readonly operator: BinaryOperator; readonly left: Formula; readonly right: Formula }
  | { readonly kind: 'call'; readonly name: FunctionName; readonly of: readonly Formula[] }
  | {
      readonly kind: 'if';
      readonly comparison: Comparison;
      readonly left: Formula;
      readonly right: Formula;
      readonly then: Formula;
      readonly otherwise: Formula;
    };

const ARGUMENTS: Readonly<Record<FunctionName, number>> = {
  min: Infinity,
  max: Infinity,
  ceil: 1,
  floor: 1,
  sqrt: 1,
  ln: 1,
  exp: 1,
  abs: 1,
};

/** A number, a name, a sign, or the rest where it is none of them. */
const TOKEN = /\d+(?:\.\d+)?(?:e[+-]?\d+)?|[A-Za-z_]\w*|<=|>=|[-+*/^(),<>]|\S.*/g;

/** Reads a formula, its symbols with their `places` in a list; a text that is none is a fault of the program. */
export function parseFormula(text: string, places?: ReadonlyMap<string, number>): Formula {
  return new Parser(text, places).all();
}

class Parser {
  /** The end is an empty one. */
  private readonly tokens: readonly string[];
  private at = 0;

  constructor(
    private readonly text: string,
    private readonly places: ReadonlyMap<string, number> | undefined,
  ) {
    this.tokens = [...(text.match(TOKEN) ?? []), ''];
  }

  all(): Formula {
    const formula = this.sum();
    if (this.next !== '') throw this.unexpected();
    return formula;
  }

  private get next(): string {
    return this.tokens[this.at]!;
  }

  private take(token: string): void {
    if (this.next !== token) throw this.unexpected(token);
    this.at++;
  }

  private unexpected(wanted = ''): Error {
    const found = this.next === '' ? 'its end' : this.next;
    return new Error(`formula ${this.text}: found ${found}${wanted === '' ? '' : `, wanted ${wanted}`}`);
  }

  /** Products bind closer than sums; operators of one rank go from left to right. */
  private sum(least = 1): Formula {
    let left = this.signed();
    for (;;) {
      const operator = this.next;
      const rank = operator === '+' || operator === '-' ? 1 : operator === '*' || operator === '/' ? 2 : 0;
      if (rank < least) return left;
      this.at++;
      left = { kind: 'binary', operator: operator as BinaryOperator, left, right: this.sum(rank + 1) };
    }
  }

  private signed(): Formula {
    if (this.next === '-') {
      this.at++;
      return { kind: 'negative', of: this.signed() };
    }
    const base = this.atom();
    if (this.next !== '^') return base;
    this.at++;
    return { kind: 'binary', operator: '^', left: base, right: this.signed() };
  }

  private atom(): Formula {
    const token = this.next;
    if (token === '(') {
      this.at++;
      const inside = this.sum();
      this.take(')');
      return inside;
    }
    if (token >= '0' && token < ':') {
      this.at++;
      return { kind: 'number', value: Number(token) };
    }
    if (!/^[A-Za-z_]/.test(token)) throw this.unexpected('a number, a symbol or (');
    this.at++;
    if (this.next === '(') return this.call(token);
    if (token === 'PI') return { kind: 'pi' };
    const place = this.places?.get(token);
    return { kind: 'symbol', symbol: token, ...(place !== undefined && { place }) };
  }

  private call(name: string): Formula {
    this.take('(');
    if (name === 'if') return this.choice();
    if (!(name in ARGUMENTS)) throw new Error(`formula ${this.text}: no function ${name}`);
    const of = [this.sum()];
    while (this.next === ',') {
      this.at++;
      of.push(this.sum());
    }
    this.take(')');
    const wanted = ARGUMENTS[name as FunctionName];
    if (wanted === Infinity ? of.length < 2 : of.length !== wanted)
      throw new Error(`formula ${this.text}: ${name} takes ${wanted === Infinity ? 'two or more' : wanted} arguments`);
    return { kind: 'call', name: name as FunctionName, of };
  }

  private choice(): Formula {
    const left = this.sum();
    const comparison = this.next;
    if (!/^[<>]=?$/.test(comparison)) throw this.unexpected('a comparison');
    this.at++;
    const right = this.sum();
    this.take(',');
    const then = this.sum();
    this.take(',');
    const otherwise = this.sum();
    this.take(')');
    return { kind: 'if', comparison: comparison as Comparison, left, right, then, otherwise };
  }
}

/** A number, or a name that is no function's. */
const NAME = /\d[\w.]*|[A-Za-z_]\w*(?![\w(])/g;

/** Symbols that a formula uses, each once, in the order in which they stand; it is not read for them. */
export const symbolsOf = (text: string): readonly string[] => [
  ...new Set((text.match(NAME) ?? []).filter((name) => name >= 'A' && name !== 'PI')),
];
