import { toSi } from '../units/parse-quantity.ts';
import type { QuantityName, UnitSystem } from '../units/quantities.ts';
import type { Kind } from '../model/step.ts';
import { CALCULATION_VERSION } from '../version.ts';
import { isChoice, type Assumption } from './assumption.ts';
import { reasonText, type Reason } from './reason.ts';
import { REGISTRY, numberAssumption, type AssumptionName, type ChoiceName, type NumberName } from './registry.ts';

/** An uncertain number: its median, its P10 and P90, and what it cannot pass; all in one unit. */
export interface Uncertain {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly min: number;
  readonly max: number;
}

/** A number in force for one call, SI: its median, P10, P90 and physical limits, and where it came from. */
export interface InForce extends Uncertain {
  readonly kind: Kind;
  readonly source: string;
}

/** One override, SI, already checked against the physical limits. */
export type Override =
  | {
      readonly name: NumberName;
      readonly value: number;
      readonly low?: number;
      readonly high?: number;
      readonly kind: 'your value' | 'your log';
      readonly reason?: Reason;
    }
  | { readonly name: ChoiceName; readonly word: string; readonly reason?: Reason };

/** How two assumptions go along with each other: the correlation of their normal scores, between -1 and 1. */
export interface Correlation {
  readonly names: readonly [NumberName, NumberName];
  readonly value: number;
  readonly kind: 'your value' | 'your log';
}

/** What is in force, and what stands behind it. */
interface Held {
  readonly numbers: ReadonlyMap<NumberName, InForce>;
  readonly words: ReadonlyMap<ChoiceName, string>;
  readonly correlations: readonly Correlation[];
  /** What the user says of own values. */
  readonly reasons: ReadonlyMap<string, Reason>;
  readonly entries: readonly Assumption[];
  readonly byName: ReadonlyMap<string, Assumption>;
  readonly version: string;
}

/**
 * The assumptions in force for one call. Made from the registry and the rows of the call's `assume`; nothing
 * is read from anywhere else, so that a cell depends on its arguments and the version alone.
 */
export class Assumptions {
  private readonly held: Held;
  private readonly numbers: ReadonlyMap<NumberName, InForce>;
  private readonly words: ReadonlyMap<ChoiceName, string>;
  /** What is not drawn each by itself; by default nothing is said of any. */
  readonly correlations: readonly Correlation[];
  readonly system: UnitSystem;
  /** The registry that the defaults were taken from, and its version. */
  readonly entries: readonly Assumption[];
  readonly version: string;
  /** The defaults that this one departs from; itself where it departs from nothing. */
  readonly defaults: Assumptions;
  /** Told of each number, and each word, that is asked for. */
  private readonly note: ((name: NumberName) => void) | undefined;
  private readonly noteWord: ((name: ChoiceName) => void) | undefined;

  private constructor(
    held: Held,
    defaults?: Assumptions,
    note?: (name: NumberName) => void,
    noteWord?: (name: ChoiceName) => void,
  ) {
    this.held = held;
    this.numbers = held.numbers;
    this.words = held.words;
    this.correlations = held.correlations;
    this.entries = held.entries;
    this.version = held.version;
    this.defaults = defaults ?? this;
    this.note = note;
    this.noteWord = noteWord;
    this.system = held.words.get('units') === 'SI' ? 'SI' : 'US';
  }

  /** Some rows over what is in force: over the defaults, or over another call's. */
  static from(overrides: readonly Override[], defaults: Assumptions = DEFAULTS): Assumptions {
    if (overrides.length === 0) return defaults;
    const numbers = new Map(defaults.numbers);
    const words = new Map(defaults.words);
    const reasons = new Map(defaults.held.reasons);
    for (const o of overrides) {
      if (o.reason) reasons.set(o.name, o.reason);
      else reasons.delete(o.name);
      if ('word' in o) words.set(o.name, o.word);
      else numbers.set(o.name, overridden(o, defaults.inForce(o.name)));
    }
    const { held, note, noteWord } = defaults;
    return new Assumptions({ ...held, numbers, words, reasons }, defaults.defaults, note, noteWord);
  }

  /** The same with these correlations, in place of those in force. */
  correlated(correlations: readonly Correlation[]): Assumptions {
    if (correlations.length + this.correlations.length === 0) return this;
    return new Assumptions({ ...this.held, correlations }, this.defaults, this.note, this.noteWord);
  }

  /** The same, telling of each number and word that is asked for: what is not asked for has no effect on what is calculated. */
  noting(note: (name: NumberName) => void, noteWord?: (name: ChoiceName) => void): Assumptions {
    return new Assumptions(this.held, this.defaults, note, noteWord);
  }

  static defaults(): Assumptions {
    return DEFAULTS;
  }

  /** Builds defaults from a registry: today's, or that of an earlier version. */
  static fromRegistry(entries: readonly Assumption[] = REGISTRY, version: string = CALCULATION_VERSION): Assumptions {
    const numbers = new Map<NumberName, InForce>();
    const words = new Map<ChoiceName, string>();
    for (const a of entries) {
      if (isChoice(a)) words.set(a.name as ChoiceName, a.value);
      else {
        const si = (x: number): number => toSi(x, a.quantity, 'US', a.unit);
        numbers.set(a.name as NumberName, {
          value: si(a.value),
          low: si(a.low),
          high: si(a.high),
          min: si(a.min),
          max: si(a.max),
          kind: a.kind,
          source: a.source,
        });
      }
    }
    const byName = new Map(entries.map((a) => [a.name, a]));
    return new Assumptions({ numbers, words, correlations: [], reasons: new Map(), entries, byName, version });
  }

  /** The entry of the registry that a name stands for. */
  entry(name: string): Assumption | undefined {
    return this.held.byName.get(name);
  }

  inForce(name: NumberName): InForce {
    const found = this.numbers.get(name);
    if (!found) throw new Error(`no assumption ${name}`);
    this.note?.(name);
    return found;
  }

  /** The value in SI. */
  value(name: NumberName): number {
    return this.inForce(name).value;
  }

  word(name: ChoiceName): string {
    this.noteWord?.(name);
    return this.words.get(name) ?? '';
  }

  /** Names of those that the call set otherwise than the register, in the register's order. */
  departures(): readonly AssumptionName[] {
    return REGISTRY.filter(({ name }) => this.isOwn(name)).map((a) => a.name);
  }

  /** What the user says of an own value, in one text; '' where the default is in force. */
  reasonOf(name: AssumptionName): string {
    if (!this.isOwn(name)) return '';
    const reason = this.held.reasons.get(name);
    const log = this.numbers.get(name as NumberName)?.kind === 'your log';
    return log && !reason ? 'your log' : reasonText(reason);
  }

  /** The parts of what the user says of an own value; each '' where nothing is said. */
  reason(name: AssumptionName): Reason {
    return this.held.reasons.get(name) ?? { why: '', by: '', date: '', source: '' };
  }

  private isOwn(name: AssumptionName): boolean {
    const { numbers, words } = this.defaults;
    return (
      this.numbers.get(name as NumberName) !== numbers.get(name as NumberName) ||
      this.words.get(name as ChoiceName) !== words.get(name as ChoiceName)
    );
  }

  /** What the working of a cell says of an assumption in force. */
  about(name: NumberName): {
    readonly quantity: QuantityName;
    readonly words: string;
    readonly kind: Kind;
    readonly source: string;
  } {
    const { kind, source } = this.inForce(name);
    const { quantity, summary } = numberAssumption(name);
    return { quantity, words: summary, kind, source };
  }
}

/**
 * A new value alone keeps the relative width of the default's range, as far as the physical limits let it, since naming a value
 * does not make it certain; who is certain gives low and high equal to it.
 */
function overridden(o: Extract<Override, { value: number }>, base: InForce): InForce {
  const { value, kind } = o;
  const scale = base.value === 0 ? 1 : value / base.value;
  const scaled = (end: number): number =>
    base.value === 0 ? value : Math.min(base.max, Math.max(base.min, end * scale));
  const low = o.low ?? Math.min(scaled(base.low), value);
  const high = o.high ?? Math.max(scaled(base.high), value);
  // What was given may lie a rounding beyond a limit.
  const [min, max] = [Math.min(base.min, low), Math.max(base.max, high)];
  const source = kind === 'your log' && !o.reason ? kind : reasonText(o.reason);
  return { value, low: Math.min(low, high), high: Math.max(low, high), min, max, kind, source };
}

const DEFAULTS = Assumptions.fromRegistry();
