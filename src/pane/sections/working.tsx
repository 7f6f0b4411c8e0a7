import { useState } from 'preact/hooks';
import type { WorkedStep } from '../../core/model/step.ts';
import type { UnitSystem } from '../../core/units/quantities.ts';
import { Foundation } from '../parts/foundation.tsx';
import type { CellSection, SectionProps } from '../section.ts';
import { showStep } from '../show-step.ts';

interface RowsProps {
  readonly steps: readonly WorkedStep[];
  /** Symbol of the step that is the result. */
  readonly result: string | undefined;
  readonly system: UnitSystem;
  readonly toSource: SectionProps['toSource'];
}

function Row({ step, result, system, toSource }: Omit<RowsProps, 'steps'> & { readonly step: WorkedStep }) {
  const { name, symbol, formula, kind, source, assumption } = step;
  const isResult = symbol === result;
  return (
    <tr class={isResult ? 'rs-selected' : undefined}>
      <th scope="row">
        {name} {symbol !== name && <i>{symbol}</i>}
        {isResult && <span class="rs-tag">result</span>}
      </th>
      <td>{showStep(step, system)}</td>
      <td class="rs-meaning">
        {assumption === undefined ? `${formula} ` : ''}
        <Foundation kind={kind} source={source} toSource={toSource} />
      </td>
    </tr>
  );
}

function Rows({ steps, ...rest }: RowsProps) {
  return (
    <table class="rs-rows">
      <thead>
        <tr>
          <th scope="col">step</th>
          <th scope="col">value</th>
          <th scope="col">how, and on what it rests</th>
        </tr>
      </thead>
      <tbody>
        {steps.map((step) => (
          <Row key={step.symbol} step={step} {...rest} />
        ))}
      </tbody>
    </table>
  );
}

function Working({ explained: { steps, result, system }, toSource }: SectionProps) {
  const [brief, setBrief] = useState(false);
  const end = steps.findIndex((s) => s.symbol === result) + 1 || steps.length;
  const cut = (part: readonly WorkedStep[]): readonly WorkedStep[] =>
    brief ? part.filter((s) => s.kind === 'calculated') : part;
  const after = cut(steps.slice(end));
  return (
    <>
      <label class="rs-check">
        <input type="checkbox" checked={brief} onChange={(e) => setBrief(e.currentTarget.checked)} /> Calculated steps
        only
      </label>
      <Rows steps={cut(steps.slice(0, end))} result={result} system={system} toSource={toSource} />
      {after.length > 0 && (
        <details>
          <summary>What follows from it in the same working, {after.length}</summary>
          <Rows steps={after} result={undefined} system={system} toSource={toSource} />
        </details>
      )}
    </>
  );
}

export const WORKING: CellSection = {
  id: 'working',
  heading: 'Working',
  shows: ({ steps }) => steps.length > 0,
  Component: Working,
};
