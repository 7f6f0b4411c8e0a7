import type { Page } from '../page.ts';
import { limits } from './limit-list.ts';
import { Cite, n } from './parts.tsx';
import { publishedChecks, verdictOf, type PublishedCheck } from './published-checks.ts';

/** Figures that a printed number has, trailing zeros apart; at least three. */
const digitsOf = (printed: readonly number[]): number =>
  Math.max(
    3,
    ...printed.map(
      (x) =>
        String(x)
          .replace(/\.|0+$/g, '')
          .replace(/^0+/, '').length,
    ),
  );
const shown = (numbers: readonly number[], unit: string, digits: number): string =>
  `${numbers.map((x) => n(Number(x.toPrecision(digits)), digits)).join(' to ')}${unit === '' ? '' : ` ${unit}`}`;

function CheckRow({ check }: { readonly check: PublishedCheck }) {
  const { what, source, printed, ours, unit, remark } = check;
  const digits = digitsOf(printed);
  return (
    <tr>
      <th scope="row">{what}</th>
      <td class="number" data-of="printed">
        {shown(printed, unit, digits)}
      </td>
      <td class="number" data-of="ours">
        {shown(ours, unit, digits)}
      </td>
      <td data-of="verdict">{verdictOf(check)}</td>
      <td>{remark.replace(/^Differs: (.)/, (_, c: string) => c.toUpperCase())}</td>
      <td data-of="source">
        <Cite source={source} />
      </td>
    </tr>
  );
}

export function limitsPage(): Page {
  return {
    file: 'limits.html',
    title: 'Limits',
    lead: "What the model does not know and where it is off, in one place. An estimate is no permit and no method: local codes, the employer's procedures and qualified people at the place come first.",
    body: (
      <>
        <h2>What it does not know</h2>
        <dl class="functions limits">
          {limits().map(({ what, why, does }) => (
            <div key={what}>
              <dt>{what}</dt>
              <dd>{why}</dd>
              <dd>{does}</dd>
            </div>
          ))}
        </dl>
        <h2>Printed values, and ours</h2>
        <p>
          Values printed elsewhere beside what our code gives for the same case, worked out when this page was written.
          No assumption about burning, heat or grip was set by one of them. Where a low and a high are given, the
          printed value is to lie between them.
        </p>
        <div class="scroll" role="region" aria-label="Printed values, and ours" tabIndex={0}>
          <table class="rows stacks">
            <thead>
              <tr>
                <th scope="col">case</th>
                <th scope="col" class="number">
                  printed
                </th>
                <th scope="col" class="number">
                  ours
                </th>
                <th scope="col">verdict</th>
                <th scope="col">remark</th>
                <th scope="col">source</th>
              </tr>
            </thead>
            <tbody>
              {publishedChecks().map((check) => (
                <CheckRow key={check.what} check={check} />
              ))}
            </tbody>
          </table>
        </div>
        <p class="fine">
          More checks than these are among the project's tests: exact solutions of conduction, of rings that yield and
          of gas flow, to the precision of their sources.
        </p>
      </>
    ),
  };
}
