/** A number to read in prose, at a mark or in a table: `digits` significant digits, whole numbers in full, never with an exponent. */
export function numberText(x: number, digits = 3): string {
  if (!Number.isFinite(x)) throw new Error(`${x} cannot be shown`);
  if (x === 0) return '0';
  const places = Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(x))));
  const text = x.toFixed(Math.min(places, 12));
  return Number(text) === 0 ? '0' : text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}
