import type { Cell } from '../../catalogue/cell.ts';
import type { SelectedCell, SheetPort } from '../../pane/port.ts';
import type { FormulaCell } from '../../pane/unknown-name.ts';

type Answer = { readonly result: unknown } | { readonly problem: string };

/** The pane's port on the process that serves its page, beside the program; `heard` is told whether it answers. */
export function loopbackPort(heard: (yes: boolean) => void): SheetPort {
  const ask = async (what: string, asked: object): Promise<unknown> => {
    const response = await fetch(what, { method: 'POST', body: JSON.stringify(asked) });
    const answer = (await response.json()) as Answer;
    if ('problem' in answer) throw new Error(answer.problem);
    return answer.result;
  };
  return {
    onSelection(listener) {
      const stream = new EventSource('selection');
      stream.onmessage = ({ data }) => listener((JSON.parse(data as string) as SelectedCell | null) ?? undefined);
      stream.onopen = () => heard(true);
      stream.onerror = () => heard(false);
      return () => stream.close();
    },
    read: async (reference, sheet) => (await ask('read', { reference, sheet })) as readonly (readonly Cell[])[],
    formulas: { all: async () => (await ask('formulas', {})) as readonly FormulaCell[], oursAlone: true },
    async write(sheet, cells) {
      await ask('write', { sheet, cells });
    },
    async putFormula(formula) {
      await ask('put', { formula });
    },
    addSheet: async (name, rows) => (await ask('add', { name, rows })) as string,
    async format({ rows, ...table }) {
      await ask('format', { ...table, rows: rows.length });
    },
  };
}
