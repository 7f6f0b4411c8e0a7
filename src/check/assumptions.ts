import { addressOf } from '../files/xlsx/address.ts';
import { areaOf } from '../formula/reference-area.ts';
import type { Argument } from '../sheet/host-function.ts';
import { assumptionsIn, callsOf, differingUses, rangesToRead, type ListCall } from './differing-assumptions.ts';
import type { Group } from './groups.ts';
import type { FormulaAt, LookedAt } from './looked-at.ts';
import type { Finding } from './workbook.ts';

/** A formula with the place at which it is looked at. */
interface Told {
  readonly sheet: string;
  readonly address: string;
  readonly formula: string;
  readonly at: FormulaAt;
}

/** Assumptions that a finding names. */
const NAMED = 3;

/** Formulas that read the same list and assume differently: those that go by other assumptions than most. */
export function mixedAssumptions(look: LookedAt, groups: readonly Group[]): readonly Finding[] {
  const ours = groups.flatMap((group) => group.cells.filter((f) => f.ours).map((at) => ({ at, group })));
  const groupOf = new Map(ours.map(({ at, group }) => [at, group]));
  const calls = callsOf(ours.map(({ at }) => toldOf(look, at)));
  const held = new Map(
    rangesToRead(calls).flatMap((call) => {
      const argument = argumentOf(look, call);
      return argument ? [[call.assume, assumptionsIn(argument.is)]] : [];
    }),
  );
  return differingUses(calls, held).flatMap(({ uses, differ }) => {
    const formulas = uses.map(({ assume, cells }) => {
      const byGroup = new Map<Group | undefined, FormulaAt[]>();
      for (const { at } of cells) byGroup.set(groupOf.get(at), [...(byGroup.get(groupOf.get(at)) ?? []), at]);
      return { assume, cells: cells.length, byGroup: [...byGroup.values()] };
    });
    // Most formulas, then most cells, and rather some assumptions than none.
    const [usual, ...others] = formulas.sort(
      (x, y) =>
        y.byGroup.length - x.byGroup.length || Number(x.assume === '') - Number(y.assume === '') || y.cells - x.cells,
    );
    const what = differ.slice(0, NAMED).map(({ name }) => name);
    const more = differ.length > NAMED ? ' and more' : '';
    return others.flatMap(({ assume, byGroup }) =>
      byGroup.map((cells) => ({
        kind: 'mixed assumptions' as const,
        cells,
        text: `${cells[0]?.told ?? ''} goes by ${inWords(assume)}, others of the same list by ${inWords(usual?.assume ?? '')}${what.length === 0 ? '' : `: ${what.join(', ')}${more}`}`,
      })),
    );
  });
}

const inWords = (assume: string): string => (assume === '' ? 'no assumptions' : assume);

const toldOf = (look: LookedAt, at: FormulaAt): Told => ({
  sheet: look.workbook.sheets[at.sheet]?.name ?? '',
  address: addressOf(at.row, at.column),
  formula: at.formula,
  at,
});

/** What a call has as its assumptions; undefined where it is not to be seen from here. */
function argumentOf(look: LookedAt, { cell, operand }: ListCall<Told>): { readonly is: Argument } | undefined {
  switch (operand?.kind) {
    case undefined:
    case 'omitted':
      return { is: undefined };
    case 'value':
      return { is: operand.value };
    case 'array':
      return { is: operand.rows };
    case 'reference': {
      const area = areaOf(operand.text, cell.sheet);
      const sheet = area && look.sheetOf(area, cell.at);
      const is = area && sheet !== undefined ? look.filledGrid(sheet, area) : look.workbook.named?.get(operand.text);
      return is && { is };
    }
    default:
      return undefined;
  }
}
