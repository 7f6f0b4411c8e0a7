/** Products of a column with each of three others; a loop of its own, so that an engine need not compile it with what calls it. */
export function products(
  column: Float64Array,
  one: Float64Array,
  two: Float64Array,
  three: Float64Array,
  into: Float64Array,
): void {
  let x = 0;
  let y = 0;
  let z = 0;
  for (let i = 0; i < column.length; i++) {
    const by = column[i]!;
    x += by * one[i]!;
    y += by * two[i]!;
    z += by * three[i]!;
  }
  into[0] = x;
  into[1] = y;
  into[2] = z;
}
