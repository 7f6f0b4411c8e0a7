/** How much of a file is taken, so that a hostile one costs bounded memory and time. A real job workbook stays far below. */
export const LIMITS = {
  /** Bytes of the file itself. */
  file: 64_000_000,
  /** Parts of the package. */
  parts: 10_000,
  /** Bytes of one part, unpacked. Parts that are not read, such as pictures, are never unpacked. */
  part: 160_000_000,
  /** Bytes of all parts read, unpacked. */
  unpacked: 300_000_000,
  /** Cells that hold anything, all sheets together. */
  cells: 1_500_000,
  /** Elements inside one another. */
  depth: 64,
  /** Characters of a formula, as the spreadsheet host has it. */
  formula: 8_192,
  /** Characters of a formula after names have been put in. */
  expanded: 65_536,
  /** Functions inside one another, as the host has it. */
  nesting: 64,
} as const;
