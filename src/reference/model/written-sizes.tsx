import { USUAL_SIZES } from '../../core/operations/unit-slip.ts';
import { showQuantity } from '../../core/units/show-quantity.ts';
import { parseQuantity } from '../../core/units/parse-quantity.ts';
import { INCH } from '../../core/units/quantities.ts';
import { n } from './parts.tsx';

/** Sizes as customers write them. */
const WRITTEN: readonly string[] = [
  '3.5',
  '3-1/2"',
  '3½',
  '3 1/2 in dia',
  '1\'-2"',
  '1 ft 2',
  '90 mm',
  'Ø90 mm',
  '７／８″',
  '9 cm',
];

const inches = (si: number): string => showQuantity(si, 'length', 'US', 4);
const millimetres = (si: number): string => showQuantity(si, 'length', 'SI', 4);

function readOrStop(text: string): number {
  const si = parseQuantity(text, 'length');
  if (si === undefined) throw new Error(`the page shows ${text}, which cannot be read`);
  return si;
}

/** How sizes may be written, read by the functions themselves, and when a unit is asked about. */
export function WrittenSizes() {
  return (
    <>
      <p>
        A size is a plain number in the unit of the sheet, or a text with its unit: in whatever quotes, dashes and
        spaces, as a fraction or a decimal, with the sign or the word of a diameter where it is one. A text that cannot
        be read is refused with the part of it that is wrong. Where the customer’s decimal mark is a comma, set the
        assumption <code>decimal mark</code> to <code>comma</code>; without it a comma is refused, since 2,500 is two
        and a half in one country and two thousand five hundred in another.
      </p>
      <table class="rows">
        <thead>
          <tr>
            <th scope="col">written</th>
            <th scope="col" class="number">
              is
            </th>
            <th scope="col" class="number">
              in millimetres
            </th>
          </tr>
        </thead>
        <tbody>
          {WRITTEN.map((text) => (
            <tr key={text}>
              <th scope="row">
                <code>{text}</code>
              </th>
              <td class="number">{inches(readOrStop(text))}</td>
              <td class="number">{millimetres(readOrStop(text))}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        A number without its unit may be in the wrong one. Plan and pane ask where a size is out of what is usual and
        all sizes of the item are usual once their numbers are read in the other unit: a pin of 60 x 200 in a sheet of
        inches. Nothing is refused or changed. What is usual is common practice, without a source, and wide:
      </p>
      <table class="rows">
        <thead>
          <tr>
            <th scope="col">size</th>
            <th scope="col" class="number">
              usual, in
            </th>
            <th scope="col" class="number">
              usual, mm
            </th>
          </tr>
        </thead>
        <tbody>
          {Object.entries(USUAL_SIZES).flatMap(([operation, sizes]) =>
            Object.entries(sizes).map(([size, [low, high]]) => (
              <tr key={`${operation} ${size}`}>
                <th scope="row">
                  {operation} {size}
                </th>
                <td class="number">
                  {n(low)} to {n(high)}
                </td>
                <td class="number">
                  {n(low * INCH * 1000)} to {n(high * INCH * 1000)}
                </td>
              </tr>
            )),
          )}
        </tbody>
      </table>
      <p>
        So a pin of 16 in or less is never asked about in a sheet of inches, nor one of 16 mm or more in a sheet of
        millimetres; pins of less than 16 mm typed into a sheet of inches are not told.
      </p>
    </>
  );
}
