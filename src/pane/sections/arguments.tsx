import type { ExplainedArgument } from '../explained.ts';
import type { CellSection, SectionProps } from '../section.ts';

/** What came, and how it was taken where that says more. */
function Came({ came, taken, text }: ExplainedArgument) {
  if (text === '') return <span class="rs-fine">left out</span>;
  if (came === undefined) return <span class="rs-fine">blank</span>;
  const more = taken !== undefined && taken !== came;
  const typed = more && !taken.startsWith(`${came} `) && taken !== `${came}%`;
  return (
    <>
      {typed && <span class="rs-fine">{came} = </span>}
      {taken ?? came}
    </>
  );
}

function Arguments({ explained }: SectionProps) {
  return (
    <dl class="rs-arguments">
      {explained.arguments.map((argument) => (
        <div>
          <dt>
            {argument.label} {argument.text !== '' && <code>{argument.text}</code>}
          </dt>
          <dd>{argument.problem === undefined ? <Came {...argument} /> : null}</dd>
          <dd class={argument.problem === undefined ? 'rs-meaning' : 'rs-meaning rs-error'}>
            {argument.problem ?? argument.summary}
          </dd>
        </div>
      ))}
    </dl>
  );
}

export const ARGUMENTS: CellSection = {
  id: 'arguments',
  heading: 'Arguments',
  shows: (e) => e.arguments.length > 0,
  Component: Arguments,
};
