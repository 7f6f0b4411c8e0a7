/** Something that the bar above the sheet says. */
export interface Notice {
  readonly text: string;
  readonly points?: readonly string[];
  /** Offered to be clicked. */
  readonly actions?: readonly { readonly label: string; readonly run: () => void }[];
}
