import { forMarks } from '../../catalogue/job-items.ts';
import { findFunction } from '../../catalogue/catalogue.ts';
import { SEVERITIES, type Severity } from '../../core/safety/caution.ts';
import type { RaisedCaution } from '../../core/safety/cautions.ts';
import { SourceLink } from '../parts/source-link.tsx';
import type { CellSection, SectionProps } from '../section.ts';

function One({ caution, toSource }: { readonly caution: RaisedCaution; readonly toSource: SectionProps['toSource'] }) {
  const { title, action, because, marks, source, clause, also = [] } = caution;
  return (
    <li>
      <details>
        <summary>{title}</summary>
        <p>{action}</p>
        <p class="rs-fine">
          {marks.length > 0 && `For: ${forMarks(marks)}. `}Because of: {because}. Source:{' '}
          <SourceLink source={source} toSource={toSource} />
          {clause !== '' && `, ${clause}`}
          {also.map((each) => (
            <>
              ; <SourceLink source={each} toSource={toSource} />
            </>
          ))}
        </p>
      </details>
    </li>
  );
}

function Group({
  severity,
  cautions,
  toSource,
}: {
  readonly severity: Severity;
  readonly cautions: readonly RaisedCaution[];
  readonly toSource: SectionProps['toSource'];
}) {
  const own = cautions.filter((c) => c.severity === severity);
  return own.length === 0 ? null : (
    <>
      <h4>{severity}</h4>
      <ul>
        {own.map((c) => (
          <One key={c.key} caution={c} toSource={toSource} />
        ))}
      </ul>
    </>
  );
}

function Cautions({ explained: { cautions }, toSource }: SectionProps) {
  return (
    <div class="rs-cautions">
      {SEVERITIES.map((severity) => (
        <Group severity={severity} cautions={cautions} toSource={toSource} />
      ))}
      <p class="rs-fine">
        What is known here, not all there is: the job and the place may bring more.
        {findFunction('BURN.CAUTIONS') && (
          <>
            {' '}
            For conditions of the place, use <code>BURN.CAUTIONS</code>.
          </>
        )}
      </p>
    </div>
  );
}

export const CAUTIONS: CellSection = {
  id: 'cautions',
  heading: 'Cautions',
  shows: ({ cautions }) => cautions.length > 0,
  Component: Cautions,
};
