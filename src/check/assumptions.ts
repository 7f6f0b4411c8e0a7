import { findFunction } from '../catalogue/catalogue.ts';
import { areaName, sheetPrefix } from '../files/xlsx/address.ts';
import type { Group } from './groups.ts';
import { argumentsOf, type LookedAt } from './looked-at.ts';
import { sizeReferences } from './sizes.ts';
import type { Finding } from './workbook.ts';

/** A formula group that reads a list, with the assumptions it is given. */
interface Reader {
  readonly group: Group;
  readonly sheet: number;
  top: number;
  bottom: number;
  /** In words; what is left out is `none`. */
  readonly assume: string;
}

const NONE = 'no assumptions';

/** Formulas that read the same list with different assumptions. */
export function mixedAssumptions(look: LookedAt, groups: readonly Group[]): readonly Finding[] {
  const readers = groups.flatMap((group) => readersOf(look, group)).sort((x, y) => x.sheet - y.sheet || x.top - y.top);
  return lists(readers).flatMap((list) => {
    const byAssume = new Map<string, Reader[]>();
    for (const reader of list) byAssume.set(reader.assume, [...(byAssume.get(reader.assume) ?? []), reader]);
    if (byAssume.size < 2) return [];
    const cells = (of: readonly Reader[]): number => of.reduce((n, r) => n + r.group.cells.length, 0);
    // Most formulas, then most cells, and rather some assumptions than none.
    const ranked = [...byAssume].sort(
      ([one, x], [other, y]) =>
        y.length - x.length || Number(one === NONE) - Number(other === NONE) || cells(y) - cells(x),
    );
    const usual = ranked[0]?.[0] ?? NONE;
    return ranked
      .slice(1)
      .flatMap(([assume, of]) =>
        of.map(({ group }) => ({
          kind: 'mixed assumptions' as const,
          cells: group.cells,
          text: `${group.cells[0]?.told ?? ''} goes by ${assume}, others of the same list by ${usual}`,
        })),
      );
  });
}

function readersOf(look: LookedAt, group: Group): readonly Reader[] {
  const readers: Reader[] = [];
  const [first] = group.cells;
  if (!first?.ours) return [];
  const last = group.cells.at(-1)!;
  first.read.calls.forEach((call, k) => {
    if (findFunction(call.name)?.assume !== true) return;
    const known = argumentsOf(call, first.read);
    const given = known.find((a) => a.isAssume);
    if (given?.argument.kind === 'formula') return;
    const rows = (
      f: typeof first,
    ): readonly { readonly sheet: number; readonly top: number; readonly bottom: number }[] => [
      ...sizeReferences(look, f)
        .filter((s) => s.call === k)
        .map(({ sheet, reference: { area } }) => ({ sheet, top: area.top, bottom: area.bottom })),
      ...argumentsOf(f.read.calls[k]!, f.read).flatMap(({ name, slot }) => {
        const sheet = slot?.reference && look.sheetOf(slot.reference, f);
        return name === 'list' && slot?.reference && sheet !== undefined
          ? [{ sheet, top: slot.reference.area.top, bottom: slot.reference.area.bottom }]
          : [];
      }),
    ];
    const all = [...rows(first), ...rows(last)];
    const [one] = all;
    if (!one) return;
    const here = all.filter((r) => r.sheet === one.sheet);
    readers.push({
      group,
      sheet: one.sheet,
      top: Math.min(...here.map((r) => r.top)),
      bottom: Math.max(...here.map((r) => r.bottom)),
      assume: told(look, first, given?.slot),
    });
  });
  return readers;
}

function told(look: LookedAt, f: Group['cells'][number], slot: ReturnType<typeof argumentsOf>[number]['slot']): string {
  if (!slot) return NONE;
  const sheet = slot.reference && look.sheetOf(slot.reference, f);
  return slot.reference && sheet !== undefined
    ? `${sheetPrefix(look.workbook.sheets[sheet]?.name ?? '')}${areaName(slot.reference.area)}`
    : slot.text;
}

/** Readers whose rows overlap read one list. */
function lists(readers: readonly Reader[]): readonly (readonly Reader[])[] {
  const found: Reader[][] = [];
  let open: Reader | undefined;
  for (const reader of readers) {
    const list = found.at(-1);
    if (open && list && reader.sheet === open.sheet && reader.top <= open.bottom) {
      list.push(reader);
      open.bottom = Math.max(open.bottom, reader.bottom);
    } else {
      found.push([reader]);
      open = { ...reader };
    }
  }
  return found;
}
