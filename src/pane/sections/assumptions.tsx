import { AssumptionRows } from '../parts/assumption-rows.tsx';
import type { CellSection, SectionProps } from '../section.ts';

function Assumptions({ explained: { assumptions }, toSource }: SectionProps) {
  return <AssumptionRows assumptions={assumptions} toSource={toSource} />;
}

export const ASSUMPTIONS: CellSection = {
  id: 'assumptions',
  heading: 'Assumptions used',
  shows: (e) => e.assumptions.length > 0,
  Component: Assumptions,
};
