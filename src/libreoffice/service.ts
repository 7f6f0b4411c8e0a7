/**
 * How the functions stand in the program's component model: a service for all that share the name up to its last
 * period, with one interface, and a method for each. The program puts service and method together with a period, so
 * that `BURN.PIN` and `RODS` give `BURN.PIN.RODS`, the name typed in a cell and stored in its files.
 */
import type { HostFunction } from '../sheet/host-function.ts';

export interface Parameter {
  /** Its name in the type library: letters and digits only. */
  readonly id: string;
  readonly name: string;
  readonly summary: string;
  readonly optional: boolean;
  readonly zeroIsBlank?: boolean;
  /** Whether the cells themselves are handed over, and not what they hold. */
  readonly ofCells?: true;
}

export interface Method {
  readonly id: string;
  /** As typed in a cell. */
  readonly name: string;
  readonly summary: string;
  readonly parameters: readonly Parameter[];
}

/** Whether the document is handed over before the arguments, for a method that is given cells. */
export const ofCells = ({ parameters }: Method): boolean => parameters.some((p) => p.ofCells);

export interface Service {
  readonly name: string;
  readonly interface: string;
  readonly methods: readonly Method[];
}

/**
 * The one function that only this host has: here a cell shows an error without the text that belongs to it. The program has
 * no parameter that takes both a cell with an error and a text, and a formula needs a sheet that its references are of; so a
 * formula stands beside a cell.
 */
const WHY: Method = {
  id: 'WHY',
  name: 'BURN.WHY',
  summary:
    'Why the BURN function of a cell, or of a formula written as a text, failed: which argument, what came, what is accepted. Blank where it did not fail.',
  parameters: [
    {
      id: 'cell',
      name: 'cell',
      summary: 'The cell to ask about; of a range its first cell',
      optional: false,
      ofCells: true,
    },
    {
      id: 'formula',
      name: 'formula',
      summary: 'A formula as a text, asked about in place of the one in the cell, as if it stood there: FORMULA(C3)',
      optional: true,
    },
  ],
};

export function services(functions: readonly HostFunction[]): readonly Service[] {
  const found = new Map<string, Method[]>();
  for (const method of [...functions.map(methodOf), WHY]) {
    const name = method.name.slice(0, method.name.lastIndexOf('.'));
    found.set(name, [...(found.get(name) ?? []), method]);
  }
  return [...found].map(([name, methods]) => ({ name, interface: interfaceName(name), methods }));
}

function methodOf({ name, summary, parameters }: HostFunction): Method {
  return {
    id: name.slice(name.lastIndexOf('.') + 1),
    name,
    summary,
    parameters: parameters.map((p) => ({ ...p, id: identifier(p.name) })),
  };
}

/** `XBurnPin` for `BURN.PIN`. */
function interfaceName(service: string): string {
  return `X${service
    .split('.')
    .map((part) => `${part[0] ?? ''}${part.slice(1).toLowerCase()}`)
    .join('')}`;
}

/** `hoseLength` for `hose length`. */
function identifier(name: string): string {
  return name.replace(/[^A-Za-z0-9]+(.)/g, (_, letter: string) => letter.toUpperCase());
}
