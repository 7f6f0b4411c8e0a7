import type { Basis } from '../core/basis.ts';
import { findMaterial } from '../core/burn/materials.ts';
import { meanFlow } from '../core/burn/rod-line.ts';
import { RODS, findRod, rodMassPerLength, rodName, rodNames, type Rod, type RodChoice } from '../core/burn/rods.ts';
import { CalcError } from '../core/errors.ts';
import * as messages from '../core/messages.ts';
import { OPERATION_IDS, operationOf, type OperationId } from '../core/operations/all.ts';
import { cutList, type ListedHole } from '../core/operations/cut-list.ts';
import { listHoles } from '../core/operations/list-holes.ts';
import { tooDeepFor } from '../core/operations/notes.ts';
import type { Operation, Sizes } from '../core/operations/operation.ts';
import { materialWord } from '../core/operations/sized.ts';
import { slipQuestion } from '../core/operations/unit-slip.ts';
import { rankChoices, type RankedChoice } from '../core/operations/rank-choices.ts';
import { stubOf } from '../core/operations/rod-fit.ts';
import { showQuantity } from '../core/units/show-quantity.ts';
import { isBlankOrZero, type Cell } from './cell.ts';
import {
  optional,
  parameterLabel,
  required,
  tableFunction,
  type Column,
  type Declaration,
  type Output,
} from './declaration.ts';
import { LENGTH, ROD_LENGTH } from './limits.ts';
import { blankError, readCell, readRangeCell, unitWritten } from './read-cell.ts';
import { sizeKind } from './read-items.ts';

type Cells = readonly (readonly Cell[])[];

const SOURCES = ['nasa polynomials', 'isothermal pipe flow', 'common practice'];

const LIST_COLUMNS = [
  { heading: 'rod' },
  { heading: 'kind' },
  { heading: 'outside diameter', quantity: 'length' },
  { heading: 'bore', quantity: 'length' },
  { heading: 'wires', quantity: 'count' },
  { heading: 'wire diameter', quantity: 'length' },
  { heading: 'lengths' },
  { heading: 'steel', quantity: 'massPerLength' },
  { heading: 'pierces', quantity: 'length' },
  { heading: 'tip pressure', quantity: 'pressure' },
  { heading: 'flow', quantity: 'flow' },
  { heading: 'burns off', quantity: 'speed' },
  { heading: 'burns for', quantity: 'time' },
  { heading: 'used for' },
  { heading: 'source' },
] as const satisfies readonly Column[];

/** A rod of the register: what it is, and what its longest length gives at the assumption `pressure`. */
function rodListLine(rod: Rod, basis: Basis): readonly Output[] {
  const { a } = basis;
  const pressure = a.value('tip pressure') || a.value('pressure');
  const longest = Math.max(...rod.lengths);
  const flow = meanFlow(rod, longest, pressure, basis);
  const burnOff = (a.value(rodNames(rod).feed) * flow) / rodMassPerLength(rod);
  const kind = rod.kind === 'bar' ? 'long burning bar' : rod.insulated ? 'insulated rod' : 'short rod';
  const use =
    rod.kind === 'bar'
      ? 'concrete, rock and heavy metal'
      : rod.insulated
        ? 'grounded work, arc, under water'
        : 'metal, lit away from the work';
  const lengths = rod.lengths.map((l) => showQuantity(l, 'length', a.system)).join(', ');
  return [
    rod.name,
    kind,
    rod.outsideDiameter,
    rod.bore,
    rod.wires,
    rod.wireDiameter,
    lengths,
    rodMassPerLength(rod),
    a.value('pierce width') * rod.outsideDiameter,
    pressure,
    flow,
    burnOff,
    (longest - stubOf(rod, basis)) / burnOff,
    use,
    rod.source,
  ];
}

const PICK_COLUMNS = [
  { heading: 'choice' },
  { heading: 'rod' },
  { heading: 'rods', quantity: 'count' },
  { heading: 'tip pressure', quantity: 'pressure' },
  { heading: 'flow', quantity: 'flow' },
  { heading: 'oxygen', quantity: 'oxygen' },
  { heading: 'burning', quantity: 'time' },
  { heading: 'at the work', quantity: 'time' },
  { heading: 'why' },
] as const satisfies readonly Column[];

/** The sizes of one item from up to three arguments; the first may be a range that holds several. */
function readSizes(
  operation: Operation,
  given: readonly (Cells | undefined)[],
  { a }: Basis,
): { readonly sizes: Sizes; readonly written: ReadonlySet<string> } {
  const [first, ...rest] = given.map((cells) => cells?.flat());
  // One cell an argument, so that a size left out keeps its place; or all in a range.
  const ranged = (first?.length ?? 0) > 1;
  const cells: readonly Cell[] = ranged
    ? [...(first ?? []), ...rest.flatMap((r) => r ?? [])]
    : [first, ...rest].map((r) => r?.[0] ?? null);
  const most = operation.order.length;
  if (cells.slice(most).some((c) => !isBlankOrZero(c)))
    throw messages.tooManySizes(cells.length, operation.id, operation.order.map(parameterLabel));
  const sizes = Object.fromEntries(
    operation.order.map((name, i) => {
      const kind = sizeKind(operation, name);
      const value = readRangeCell(cells[i] ?? null, parameterLabel(name), kind, a.system) as number | undefined;
      if (value === undefined && !operation.sizes[name]?.optional) throw blankError(parameterLabel(name), kind);
      return [name, value];
    }),
  );
  return { sizes, written: new Set(operation.order.filter((_, i) => unitWritten(cells[i] ?? null))) };
}

/** A list of cells, blank ones passed over; an error names its place. */
function readList<T>(cells: Cells, range: string, read: (cell: Cell) => T): readonly T[] {
  return cells.flat().flatMap((cell, i) => {
    if (isBlankOrZero(cell)) return [];
    try {
      return [read(cell)];
    } catch (e) {
      if (e instanceof CalcError) throw messages.inRow(range, i + 1, e);
      throw e;
    }
  });
}

/** Rods of one kind, each with its length; 3/8 x 36 where nothing is given. */
function readStock(cells: Cells | undefined, { a }: Basis): { readonly rod: Rod; readonly lengths: readonly number[] } {
  const choices = cells
    ? readList(cells, 'stock', (cell) => readCell(cell, 'stock', { kind: 'rod' }, a.system) as RodChoice)
    : [];
  const [first, ...rest] = choices.length > 0 ? choices : [findRod('3/8 x 36')];
  const { rod } = first as RodChoice;
  const other = rest.find((c) => c.rod !== rod);
  if (other) throw messages.mixedStock(rod.name, other.rod.name);
  return {
    rod,
    lengths: [first as RodChoice, ...rest].flatMap(({ length }) => (length === undefined ? rod.lengths : [length])),
  };
}

const CUT_COLUMNS = [
  { heading: 'rod' },
  { heading: 'stock' },
  { heading: 'holes, in this order' },
  { heading: 'burned', quantity: 'length' },
  { heading: 'left', quantity: 'length' },
  { heading: 'note' },
] as const satisfies readonly Column[];

function cutLines(
  depths: readonly number[],
  { rod, lengths }: ReturnType<typeof readStock>,
  basis: Basis,
): readonly (readonly Output[])[] {
  const { a } = basis;
  const shown = (x: number): string => showQuantity(x, 'length', a.system, 4);
  const longest = Math.max(...lengths);
  const stub = stubOf(rod, basis);
  if (!(longest > stub)) throw messages.stubTooLong(shown(stub), shown(longest));
  const holes = listHoles(depths, rod, longest, findMaterial(a.word('material')), basis);
  const { rods, bound, exhausted } = cutList(holes, lengths, stub, rodName(rod, longest, false), shown);
  /** Said once of a hole, with the rod that ends it. */
  const note = (hole: number): string => {
    const { depth, consumed } = holes[hole] as ListedHole;
    const taken = rods.filter((r) => r.pieces.some((piece) => piece.hole === hole)).length;
    return tooDeepFor({ rod, length: longest }, depth, taken, consumed(depth), basis);
  };
  const lines = rods.map((r, i): readonly Output[] => {
    const pieces = r.pieces.map(({ hole, from, to }) => {
      const { depth } = holes[hole] as { depth: number };
      const part = from === 0 && to === depth ? `${shown(depth)} deep` : `from ${shown(from)} to ${shown(to)}`;
      return `hole ${hole + 1}, ${part}`;
    });
    const ended = r.pieces.filter(({ hole, from, to }) => from > 0 && to === holes[hole]?.depth);
    return [
      i + 1,
      rodName(rod, r.length, false),
      pieces.join('; '),
      r.burned,
      r.left,
      messages.joined(ended.map(({ hole }) => note(hole))) || null,
    ];
  });
  const sum = (of: (r: (typeof rods)[number]) => number): number => rods.reduce((total, r) => total + of(r), 0);
  const least =
    rods.length <= bound
      ? 'least there can be'
      : exhausted
        ? 'least where one rod ends each hole'
        : 'best found in the time of a cell';
  return [
    ...lines,
    [
      'rods in all',
      rods.length,
      `no plan can do with fewer than ${bound}`,
      sum((r) => r.burned),
      sum((r) => r.left),
      least,
    ],
  ];
}

interface Choosing {
  readonly operation: string;
  readonly size: Cells;
  readonly secondSize: Cells | undefined;
  readonly thirdSize: Cells | undefined;
  readonly access: number | undefined;
}

function rankedChoices(
  { operation: id, size, secondSize, thirdSize, access }: Choosing,
  basis: Basis,
): readonly RankedChoice[] {
  const operation = operationOf(id as OperationId);
  const { sizes, written } = readSizes(operation, [size, secondSize, thirdSize], basis);
  const choices = rankChoices(operation, sizes, access, findMaterial(basis.a.word(materialWord(operation))), basis);
  const slip = slipQuestion(id as OperationId, sizes, basis.a.system, written);
  return choices.map((choice, i) => (i > 0 || slip === '' ? choice : { ...choice, why: `${slip}; ${choice.why}` }));
}

export const ROD_CHOICE_FUNCTIONS: readonly Declaration[] = [
  tableFunction({
    name: 'BURN.ROD.LIST',
    family: 'ROD',
    summary:
      'The register of rods: construction, lengths, width pierced, and the flow and burn-off of the longest at the pressure assumed.',
    parameters: {},
    assume: true,
    result: { kind: 'table', columns: LIST_COLUMNS },
    sources: [...SOURCES, 'asme b36.10'],
    cautions: ['ROD'],
    examples: ['=BURN.ROD.LIST()'],
    calculate: (_values, basis) => RODS.map((rod) => rodListLine(rod, basis)),
  }),
  tableFunction({
    name: 'BURN.ROD.PICK',
    family: 'ROD',
    summary:
      'The rod to use for one item, why, and the runner-up. Sizes in the order of the operation: one an argument, or all in a range as the first.',
    parameters: {
      operation: required(
        { kind: 'choice', choices: OPERATION_IDS },
        `Operation: ${OPERATION_IDS.join(', ')}`,
        '"PIN"',
      ),
      size: required({ kind: 'cells' }, 'First size of the operation, or a range that holds all its sizes', '4'),
      secondSize: optional(
        { kind: 'cells' },
        'Second size of the operation, such as the length of a pin or the depth of a hole; left out where the first is a range of all',
        '10',
      ),
      thirdSize: optional(
        { kind: 'cells' },
        'Third size of the operation, where it has one; as the operation plans it when left out',
        '2.5',
      ),
      access: optional(
        ROD_LENGTH,
        'Clear length in front of the work; the assumptions for short rods and for bars when left out',
        '30',
      ),
    },
    assume: true,
    result: { kind: 'table', columns: PICK_COLUMNS },
    sources: SOURCES,
    cautions: ['ROD'],
    examples: ['=BURN.ROD.PICK("PIN",4,10)', '=BURN.ROD.PICK("HOLE",1,6,,24)', '=BURN.ROD.PICK("BREACH",24,2.5)'],
    about: (values, basis) =>
      rankedChoices(values, basis).map(({ sized: { material, rod } }) => ({
        operation: values.operation as OperationId,
        material,
        rod,
      })),
    calculate: (values, basis) =>
      rankedChoices(values, basis).map(({ place, sized: s, why }) => [
        place,
        s.name,
        s.rods,
        s.pressure,
        s.flow,
        s.oxygen,
        s.burnTime,
        s.timeAtWork,
        why,
      ]),
  }),
  tableFunction({
    name: 'BURN.ROD.CUTLIST',
    family: 'ROD',
    summary:
      "Least rods, and what is left of each, to pierce holes of the listed depths at the rod's own width: which rod does which hole, deepest first.",
    parameters: {
      depths: required({ kind: 'cells' }, 'Range of depths of holes; blank cells are passed over', 'A2:A9'),
      stock: optional(
        { kind: 'cells' },
        'Rods in stock, all of one size, such as 3/8 x 36, or a range of them; 3/8 x 36 when left out',
        '"3/8 x 36"',
      ),
    },
    assume: true,
    result: { kind: 'table', columns: CUT_COLUMNS },
    sources: SOURCES,
    cautions: ['ROD'],
    examples: ['=BURN.ROD.CUTLIST({4;6;9;12;12})', '=BURN.ROD.CUTLIST({4;6;9},{"3/8 x 24";"3/8 x 36"})'],
    calculate: ({ depths, stock }, basis) => {
      const list = readList(depths, 'depths', (cell) => readCell(cell, 'depth', LENGTH, basis.a.system) as number);
      if (list.length === 0) throw messages.noRows('depths');
      return cutLines(list, readStock(stock, basis), basis);
    },
  }),
];
