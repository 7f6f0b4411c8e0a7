/**
 * Results as numbers that carry their working on a card, for hosts that have cards.
 *
 * The value stays a number in every formula (a double with properties); the card lists the steps with their values, and
 * below them the formulas and sources. Host documentation: data types with custom functions, and properties of basic cell
 * values; it asks for custom functions 1.4 and the application interface 1.19.
 */
import { joined } from '../core/messages.ts';
import type { Argument, Cell, HostFunction, WorkingLine } from '../sheet/host-function.ts';

type Property =
  | { readonly type: 'Double'; readonly basicType: 'Double'; readonly basicValue: number }
  | { readonly type: 'String'; readonly basicType: 'String'; readonly basicValue: string };

interface Section {
  readonly layout: 'List';
  readonly title: string;
  readonly collapsible?: true;
  readonly collapsed?: true;
  readonly properties: readonly string[];
}

/** A number of the host's with its card. */
export interface Card {
  readonly type: 'Double';
  readonly basicType: 'Double';
  readonly basicValue: number;
  readonly properties: Readonly<Record<string, Property>>;
  readonly layouts: { readonly card: { readonly title: string; readonly sections: readonly Section[] } };
}

/** For a call that asks for cards in a host that has them: the card of a cell of its result, undefined where it has none. */
export type Cards = (
  f: HostFunction,
  args: readonly Argument[],
) => ((cell: Cell, row: number, column: number) => Card | undefined) | undefined;

interface OfficeGlobal {
  readonly Office?: {
    readonly context?: { readonly requirements?: { isSetSupported(name: string, version: string): boolean } };
  };
}

/** Whether the host, as far as it tells, has cards on numbers that custom functions return. */
function hasCards(): boolean {
  const requirements = (globalThis as OfficeGlobal).Office?.context?.requirements;
  return (
    requirements?.isSetSupported('CustomFunctionsRuntime', '1.4') === true &&
    requirements.isSetSupported('ExcelApi', '1.19')
  );
}

export const showCards: Cards = (f, args) => {
  if (!f.working || !hasCards()) return undefined;
  const working = f.working(args);
  return (
    working &&
    ((cell, row, column) => (typeof cell === 'number' ? cardOf(f.name, cell, working(row, column)) : undefined))
  );
};

function cardOf(title: string, value: number, steps: readonly WorkingLine[]): Card {
  const keys = steps.map((s) => `${s.unit === '' ? s.name : `${s.name}, ${s.unit}`} [${s.symbol}]`);
  const formulas = steps.map((s) => `${s.symbol} =`);
  const properties: Record<string, Property> = {};
  steps.forEach((s, i) => {
    properties[keys[i] ?? ''] =
      typeof s.value === 'number' ? { type: 'Double', basicType: 'Double', basicValue: s.value } : text(s.value);
    properties[formulas[i] ?? ''] = text(joined([s.formula, s.kind, s.source]));
  });
  const sections: readonly Section[] = [
    { layout: 'List', title: 'Working', properties: keys },
    { layout: 'List', title: 'Formulas and sources', collapsible: true, collapsed: true, properties: formulas },
  ];
  return { type: 'Double', basicType: 'Double', basicValue: value, properties, layouts: { card: { title, sections } } };
}

const text = (basicValue: string): Property => ({ type: 'String', basicType: 'String', basicValue });
