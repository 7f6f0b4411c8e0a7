import type { UsedAssumption } from '../explained.ts';
import { showNumber, showWithUnit } from '../show-cell.ts';
import { Foundation } from './foundation.tsx';

function Range({ value, low, high, unit }: UsedAssumption) {
  if (low === undefined || high === undefined || (low === value && high === value)) return null;
  return <span class="rs-range">{`${showNumber(low)} to ${showWithUnit(high, unit)}`}</span>;
}

export function AssumptionRows({
  assumptions,
  toSource,
}: {
  readonly assumptions: readonly UsedAssumption[];
  readonly toSource: (key: string) => void;
}) {
  return (
    <table class="rs-rows">
      <thead>
        <tr>
          <th scope="col">assumption</th>
          <th scope="col">value, low to high</th>
          <th scope="col">meaning, and on what it rests</th>
        </tr>
      </thead>
      <tbody>
        {assumptions.map((a) => (
          <tr key={a.name} class={a.kind.startsWith('your') ? 'rs-own' : undefined}>
            <th scope="row">{a.name}</th>
            <td>
              {showWithUnit(a.value, a.unit)}
              <Range {...a} />
            </td>
            <td class="rs-meaning">
              {`${a.summary} `}
              <Foundation kind={a.kind} source={a.source} toSource={toSource} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
