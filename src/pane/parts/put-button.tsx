import { useEffect, useState } from 'preact/hooks';

/** Where a formula would go: the selected cell, and whether it holds something already. */
export interface Put {
  readonly at: string | undefined;
  readonly occupied: boolean;
  readonly run: (formula: string) => void;
}

/** Puts a formula in the selected cell; asks once more where that would overwrite something. */
export function PutButton({ formula, put }: { readonly formula: string; readonly put: Put }) {
  const { at, occupied, run } = put;
  const [asked, setAsked] = useState(false);
  useEffect(() => setAsked(false), [at, occupied]);
  if (at === undefined) return <span class="rs-fine">select a cell to put it in</span>;
  const label = asked ? `Replace what ${at} holds` : `Put in ${at}`;
  return (
    <button
      type="button"
      aria-label={`${label}: ${formula}`}
      class={asked ? 'rs-asks' : undefined}
      onClick={() => {
        if (occupied && !asked) {
          setAsked(true);
          return;
        }
        setAsked(false);
        run(formula);
      }}
    >
      {label}
    </button>
  );
}
