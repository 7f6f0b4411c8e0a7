import { toSi } from '../units/parse-quantity.ts';
import type { QuantityName, UnitSystem } from '../units/quantities.ts';
import type { Kind } from '../model/step.ts';
import { CALCULATION_VERSION } from '../version.ts';
import { isChoice, type Assumption } from './assumption.ts';
import { REGISTRY, numberAssumption, type AssumptionName, type ChoiceName, type NumberName } from './registry.ts';

/** A number in force for one call, SI, with its range and where it came from. */
export interface InForce {
  readonly value: number;
  readonly low: number;
  readonly high: number;
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
    }
  | { readonly name: ChoiceName; readonly word: string };

/**
 * The assumptions in force for one call. Made from the registry and the rows of the call's `assume`; nothing
 * is read from anywhere else, so that a cell depends on its arguments and the version alone.
 */
export class Assumptions {
  private readonly numbers: ReadonlyMap<NumberName, InForce>;
  private readonly words: ReadonlyMap<ChoiceName, string>;
  readonly system: UnitSystem;
  /** The registry that the defaults were taken from, and its version. */
  readonly entries: readonly Assumption[];
  readonly version: string;
  private readonly byName: ReadonlyMap<string, Assumption>;
  /** The defaults that this one departs from; itself where it departs from nothing. */
  readonly defaults: Assumptions;
  /** Told of each number, and each word, that is asked for. */
  private readonly note: ((name: NumberName) => void) | undefined;
  private readonly noteWord: ((name: ChoiceName) => void) | undefined;

  private constructor(
    numbers: ReadonlyMap<NumberName, InForce>,
    words: ReadonlyMap<ChoiceName, string>,
    entries: readonly Assumption[],
    byName: ReadonlyMap<string, Assumption>,
    version: string,
    defaults?: Assumptions,
    note?: (name: NumberName) => void,
    noteWord?: (name: ChoiceName) => void,
  ) {
    this.numbers = numbers;
    this.words = words;
    this.entries = entries;
    this.byName = byName;
    this.version = version;
    this.defaults = defaults ?? this;
    this.note = note;
    this.noteWord = noteWord;
    this.system = words.get('units') === 'SI' ? 'SI' : 'US';
  }

  /** Some rows over what is in force: over the defaults, or over another call's. */
  static from(overrides: readonly Override[], defaults: Assumptions = DEFAULTS): Assumptions {
    if (overrides.length === 0) return defaults;
    const numbers = new Map(defaults.numbers);
    const words = new Map(defaults.words);
    for (const o of overrides) {
      if ('word' in o) words.set(o.name, o.word);
      else numbers.set(o.name, overridden(o, defaults.inForce(o.name)));
    }
    const { entries, byName, version, note, noteWord } = defaults;
    return new Assumptions(numbers, words, entries, byName, version, defaults.defaults, note, noteWord);
  }

  /** The same, telling of each number and word that is asked for: what is not asked for has no effect on what is calculated. */
  noting(note: (name: NumberName) => void, noteWord?: (name: ChoiceName) => void): Assumptions {
    const { numbers, words, entries, byName, version, defaults } = this;
    return new Assumptions(numbers, words, entries, byName, version, defaults, note, noteWord);
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
          kind: a.kind,
          source: a.source,
        });
      }
    }
    return new Assumptions(numbers, words, entries, new Map(entries.map((a) => [a.name, a])), version);
  }

  /** The entry of the registry that a name stands for. */
  entry(name: string): Assumption | undefined {
    return this.byName.get(name);
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
    const { numbers, words } = this.defaults;
    return REGISTRY.filter(
      ({ name }) =>
        this.numbers.get(name as NumberName) !== numbers.get(name as NumberName) ||
        this.words.get(name as ChoiceName) !== words.get(name as ChoiceName),
    ).map((a) => a.name);
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
 * A new value alone keeps the relative width of the default's range, since naming a value does not make it
 * certain; who is certain gives low and high equal to it.
 */
function overridden(o: Extract<Override, { value: number }>, base: InForce): InForce {
  const scale = base.value === 0 ? 1 : o.value / base.value;
  const low = o.low ?? (base.value === 0 ? o.value : Math.min(base.low * scale, o.value));
  const high = o.high ?? (base.value === 0 ? o.value : Math.max(base.high * scale, o.value));
  return { value: o.value, low: Math.min(low, high), high: Math.max(low, high), kind: o.kind, source: o.kind };
}

const DEFAULTS = Assumptions.fromRegistry();
