/**
 * Name of a function of ours, `BURN.PIN.OXYGEN`, from any way in which hosts and files keep it: as typed, or behind a prefix
 * and with `_` for `.`, where it is kept as a name that belongs to some add-in. Undefined for any other function.
 */
export function ownName(kept: string): string | undefined {
  const name = kept
    .replace(/^_xl(?:dudf_|l\.|udf\.)/i, '')
    .toUpperCase()
    .replaceAll('_', '.');
  return name.startsWith('BURN.') ? name : undefined;
}
