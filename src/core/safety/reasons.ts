import type { Need, Trigger } from './caution.ts';
import { conditionsOf, type HeldCondition, type Item } from './item.ts';
import { isAbove, isBelow } from './limits.ts';

/** Why a rule applies. */
export interface Reasons {
  /** The conditions, the operation and the function that bring it up, each by itself. */
  readonly because: string;
  /** Whether a condition brought it up, rather than the operation or the function by itself. */
  readonly byCondition: boolean;
}

/** A rule that applies, with the marks of the items that it is for; none where it is for all of them, or they have no marks. */
export type Applied<R> = R & Reasons & { readonly marks: readonly string[] };

interface Rule {
  readonly triggers: readonly Trigger[];
}

function holds(need: Need, condition: HeldCondition, { limits }: Item): boolean {
  if (typeof need === 'string') return condition.name === need;
  if (condition.name !== need.condition) return false;
  const { value } = condition;
  // A bound without a value to hold against it is taken as passed.
  if (value === undefined) return true;
  const bound = (of: number | keyof typeof limits): number => (typeof of === 'number' ? of : limits[of]);
  if ('above' in need) return isAbove(value, bound(need.above));
  if ('atLeast' in need) return !isBelow(value, bound(need.atLeast));
  return isBelow(value, bound(need.below));
}

/** What brought a trigger up, or undefined where it does not hold. */
function reason(trigger: Trigger, item: Item, held: readonly HeldCondition[]): Reasons | undefined {
  const { operation } = item;
  if (trigger.operations && !(operation && trigger.operations.includes(operation))) return undefined;
  const name = item.functions.find((n) => trigger.functions?.some((f) => n === f || n.startsWith(`${f}.`)));
  if (trigger.functions && name === undefined) return undefined;
  const met = (trigger.conditions ?? []).map((need) => held.find((c) => holds(need, c, item)));
  if (met.some((c) => c === undefined)) return undefined;
  return met.length > 0
    ? { because: met.map((c) => c?.because ?? '').join(' and '), byCondition: true }
    : { because: name ?? operation ?? '', byCondition: false };
}

/** The rules that apply to any of the items, in their order, each once with all that brought it up. */
export function reasonsOf<R extends Rule>(rules: readonly R[], items: readonly Item[]): readonly Applied<R>[] {
  const subjects = distinctSubjects(items);
  return rules.flatMap((rule): readonly Applied<R>[] => {
    const met = subjects.map(({ item, held }) => rule.triggers.flatMap((t) => reason(t, item, held) ?? []));
    const reasons = met.flat();
    if (reasons.length === 0) return [];
    const marks = met.every((r) => r.length > 0) ? [] : marksOf(subjects.filter((_, i) => met[i]!.length > 0));
    const because = [...new Set(reasons.map((r) => r.because))].join(' and ');
    return [{ ...rule, because, byCondition: reasons.some((r) => r.byCondition), marks }];
  });
}

/** Items that say the same. */
interface Subject {
  readonly item: Item;
  readonly held: readonly HeldCondition[];
  readonly marks: (readonly string[])[];
}

/** Where one of them has no mark, what is said of it is said of all. */
const marksOf = (subjects: readonly Subject[]): readonly string[] => {
  const marks = subjects.flatMap((s) => s.marks);
  return marks.some((m) => m.length === 0) ? [] : [...new Set(marks.flat())];
};

/** A plan has many items that say the same. */
function distinctSubjects(items: readonly Item[]): readonly Subject[] {
  const subjects = new Map<string, Subject>();
  for (const item of items) {
    const held = conditionsOf(item);
    const key = [item.operation, ...item.functions, ...held.map((h) => `${h.name} ${h.value} ${h.because}`)].join('|');
    const subject = subjects.get(key) ?? { item, held, marks: [] };
    subject.marks.push(item.marks);
    subjects.set(key, subject);
  }
  return [...subjects.values()];
}
