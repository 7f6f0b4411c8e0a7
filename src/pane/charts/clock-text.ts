/** Hours after midnight as a clock shows them: `07:30`; past the next midnight it begins anew. */
export function clockText(hours: number): string {
  const minutes = Math.round(60 * hours);
  return `${String(Math.floor(minutes / 60) % 24).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}
