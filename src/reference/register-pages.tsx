import { isChoice, type Assumption } from '../core/assumptions/assumption.ts';
import { REGISTRY } from '../core/assumptions/registry.ts';
import { SOURCES, findSource } from '../core/sources/register.ts';
import { showNumber, showWithUnit } from '../pane/show-cell.ts';
import { referencePage } from '../sheet/reference-page.ts';
import { ASSUMPTIONS_FILE, SOURCES_FILE, assumptionAnchor, sourceAnchor } from './files.ts';
import { editionOf } from './function-page.tsx';
import type { Page } from './page.ts';

function Row({ entry }: { readonly entry: Assumption }) {
  const { name, summary, kind, source } = entry;
  const cited = findSource(source);
  return (
    <tr id={assumptionAnchor(name)}>
      <th scope="row">{name}</th>
      <td class="number">{isChoice(entry) ? entry.value : showWithUnit(entry.value, entry.unit)}</td>
      <td class={isChoice(entry) ? undefined : 'number'} data-of={isChoice(entry) ? 'one of' : 'low to high'}>
        {isChoice(entry) ? entry.choices.join(', ') : `${showNumber(entry.low)} to ${showNumber(entry.high)}`}
      </td>
      <td class="number" data-of="refused outside">
        {isChoice(entry) ? '' : `${showNumber(entry.min)} to ${showNumber(entry.max)}`}
      </td>
      <td>{summary}</td>
      <td>
        {kind !== source && kind}
        {kind !== source && cited && ', '}
        {cited && <a href={`${SOURCES_FILE}#${sourceAnchor(source)}`}>{source}</a>}
      </td>
    </tr>
  );
}

/** The register of assumptions. */
export function assumptionsPage(): Page {
  const all: readonly Assumption[] = REGISTRY;
  const ofKind = (kind: Assumption['kind']): number => all.filter((a) => a.kind === kind).length;
  return {
    file: ASSUMPTIONS_FILE,
    title: 'Assumptions',
    lead: 'Every default of the calculation. A row of name and value in the argument assume replaces one for that call.',
    body: (
      <>
        <dl class="pairs">
          <dt>published</dt>
          <dd>{ofKind('published')}, from a source that is named.</dd>
          <dt>common practice</dt>
          <dd>
            {ofKind('common practice')}, for which no source was found. The range is what counts; your own finished jobs
            beat it.
          </dd>
          <dt>convention</dt>
          <dd>{ofKind('convention')}, a choice that changes how results are given.</dd>
        </dl>
        <p>
          The value is the middle: as often too low as too high. One case in ten lies below the low, one in ten above
          the high (P10 and P90); where a function gives a spread, it is drawn so.{' '}
          <a href={referencePage('BURN.ASSUMED')}>BURN.ASSUMED</a> lists them in a sheet.
        </p>
        <div class="scroll" role="region" aria-label="Table: assumptions" tabIndex={0}>
          <table class="rows stacks">
            <thead>
              <tr>
                <th scope="col">name</th>
                <th scope="col" class="number">
                  value
                </th>
                <th scope="col">low to high, or words</th>
                <th scope="col" class="number">
                  refused outside
                </th>
                <th scope="col">meaning</th>
                <th scope="col">kind and source</th>
              </tr>
            </thead>
            <tbody>
              {all.map((entry) => (
                <Row entry={entry} />
              ))}
            </tbody>
          </table>
        </div>
      </>
    ),
  };
}

/** The register of sources. */
export function sourcesPage(): Page {
  return {
    file: SOURCES_FILE,
    title: 'Sources',
    lead: 'What figures were taken from or checked against, and what each was used for.',
    body: (
      <dl class="functions">
        {SOURCES.map((source) => (
          <div id={sourceAnchor(source.key)}>
            <dt>{source.key}</dt>
            <dd>
              {source.citation}
              {editionOf(source)}.
            </dd>
            <dd>Used for: {source.usedFor}</dd>
          </div>
        ))}
      </dl>
    ),
  };
}
