export interface TableRow {
  readonly name: string;
  readonly cells: readonly string[];
}

/** The figures of a plot, folded until they are asked for. */
export function DataTable({
  title,
  headings,
  rows,
}: {
  readonly title: string;
  readonly headings: readonly string[];
  readonly rows: readonly TableRow[];
}) {
  return (
    <details>
      <summary>The figures</summary>
      <div class="scroll" role="region" aria-label={`${title}: the figures`} tabIndex={0}>
        <table class="rows">
          <thead>
            <tr>
              {headings.map((h, i) => (
                <th key={h} scope="col" class={i === 0 ? undefined : 'number'}>
                  {h}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((r, n) => (
              <tr key={n}>
                <th scope="row">{r.name}</th>
                {r.cells.map((c, i) => (
                  <td key={i} class="number">
                    {c}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
