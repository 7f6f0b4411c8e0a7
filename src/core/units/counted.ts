/** A count with its word: `1 rod`, `1,200 rods`. */
export function counted(n: number, one: string, many = `${one}s`): string {
  return `${n.toLocaleString('en-US')} ${n === 1 ? one : many}`;
}
