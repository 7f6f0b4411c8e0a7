import type { ComponentChildren } from 'preact';
import { backgroundOf } from '../catalogue/background.ts';
import { parameterLabel, type Declaration, type Kind, type Parameter } from '../catalogue/declaration.ts';
import { RODS } from '../core/burn/rods.ts';
import { MATERIALS } from '../core/burn/materials.ts';
import { CYLINDER_SIZES } from '../core/oxygen/cylinder-sizes.ts';
import type { RaisedCaution } from '../core/safety/cautions.ts';
import { REGISTRY } from '../core/assumptions/registry.ts';
import { findSource } from '../core/sources/register.ts';
import type { Source } from '../core/sources/source.ts';
import type { WorkedStep } from '../core/model/step.ts';
import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import type { Explained, UsedAssumption } from '../pane/explained.ts';
import { picturesOf } from '../pane/pictures.ts';
import { PlotFigure } from '../pane/charts/plot-figure.tsx';
import { showNumber, showWithUnit } from '../pane/show-cell.ts';
import { showStep } from '../pane/show-step.ts';
import type { HostParameter } from '../sheet/host-function.ts';
import { referencePage } from '../sheet/reference-page.ts';
import type { Entry } from './entries.ts';
import { Example } from './example.tsx';
import { ASSUMPTIONS_FILE, SOURCES_FILE, assumptionAnchor, sourceAnchor } from './files.ts';
import { relatedTo } from './related.ts';
import type { Page } from './page.ts';

/** `BURN.PIN.HOLE(diameter, [assume])`, brackets where an argument may be left out. */
export function syntaxOf({ host }: Pick<Entry, 'host'>): string {
  return `${host.name}(${host.parameters.map((p) => (p.optional ? `[${p.name}]` : p.name)).join(', ')})`;
}

/** A function's own page. */
export function functionPage(entry: Entry): Page {
  const { declaration: d, host, examples, failures, explained } = entry;
  const working = workingOf(d, explained);
  const parts: readonly (readonly [id: string, heading: string, content: ComponentChildren])[] = [
    [
      'arguments',
      'Arguments',
      host.parameters.length > 0 ? <Arguments d={d} parameters={host.parameters} /> : <p>It takes none.</p>,
    ],
    ['result', 'Result', <Result d={d} />],
    [
      'examples',
      examples.length > 1 ? 'Examples' : 'Example',
      <>
        {examples.map((example) => (
          <Example d={d} example={example} />
        ))}
        {picturesOf(explained).map((of) => (
          <PlotFigure of={of} />
        ))}
      </>,
    ],
    ['model', 'Model', <ModelText d={d} />],
    ...(working ? [['working', 'Working', working] as const] : []),
    ['assumptions', 'Assumptions', <AssumptionsUsed used={explained.assumptions} formula={d.examples[0] ?? ''} />],
    ['cautions', 'Cautions', <Cautions cautions={explained.cautions} />],
    ['sources', 'Sources', <Sources keys={sourcesOf(d, explained)} />],
    ['errors', 'Errors', <Errors failures={failures} />],
    ['related', 'Related', <Related d={d} />],
  ];
  return {
    file: referencePage(d.name),
    title: d.name,
    lead: d.summary,
    body: (
      <>
        <code class="formula">{syntaxOf(entry)}</code>
        <nav aria-label="On this page">
          <ul class="on-page">
            {parts.map(([id, heading]) => (
              <li>
                <a href={`#${id}`}>{heading}</a>
              </li>
            ))}
          </ul>
        </nav>
        {parts.map(([id, heading, content]) => (
          <section aria-labelledby={id}>
            <h2 id={id}>{heading}</h2>
            {content}
          </section>
        ))}
      </>
    ),
  };
}

const inSystem = (si: number, kind: Extract<Kind, { readonly kind: 'quantity' }>, system: UnitSystem): string =>
  showNumber(fromSi(si, kind.quantity, system));

/** The accepted range in the plain units of one system: `more than 0, up to 200`. */
function rangeIn(kind: Extract<Kind, { readonly kind: 'quantity' }>, system: UnitSystem): string {
  const { above, min, max } = kind;
  const from =
    above !== undefined
      ? `more than ${inSystem(above, kind, system)}`
      : min !== undefined
        ? `${max === undefined ? 'at least ' : ''}${inSystem(min, kind, system)}`
        : '';
  const to =
    max === undefined
      ? ''
      : `${min !== undefined && above === undefined ? ' to' : from === '' ? 'up to' : ', up to'} ${inSystem(max, kind, system)}`;
  return `${from}${to}`;
}

/** What an argument accepts, in plain units of both systems. */
export function acceptedBy(kind: Kind): string {
  switch (kind.kind) {
    case 'quantity': {
      const [us, si] = [plainUnit(kind.quantity, 'US'), plainUnit(kind.quantity, 'SI')];
      const inUnit = (system: UnitSystem, unit: string): string =>
        `${rangeIn(kind, system)}${unit === '' ? '' : ` ${unit}`}`.trim();
      const whole = kind.whole ? 'whole number, ' : '';
      return us === si ? `${whole}${inUnit('US', us)}` : `${whole}${inUnit('US', us)}; with SI ${inUnit('SI', si)}`;
    }
    case 'choice':
      return kind.choices.join(', ');
    case 'rod':
      return `a rod of the register, with a length where wanted: ${RODS.map((r) => r.name).join(', ')}`;
    case 'material':
      return `a material of the register: ${MATERIALS.map((m) => m.name).join(', ')}`;
    case 'cylinder':
      return `L of water, more than 0; or a size by name: ${CYLINDER_SIZES.map((c) => c.name).join(', ')}`;
    case 'cells':
      return 'a range';
    case 'text':
      return 'a text';
  }
}

function unitOf(parameter: Parameter | undefined): string {
  if (parameter?.kind.kind === 'cylinder') return 'L';
  if (parameter?.kind.kind !== 'quantity') return '';
  const [us, si] = [plainUnit(parameter.kind.quantity, 'US'), plainUnit(parameter.kind.quantity, 'SI')];
  return us === si ? us : `${us}; ${si} with SI`;
}

function Arguments({ d, parameters }: { readonly d: Declaration; readonly parameters: readonly HostParameter[] }) {
  const declared = new Map(Object.entries(d.parameters).map(([name, p]) => [parameterLabel(name), p]));
  return (
    <>
      <div class="scroll" role="region" aria-label="Table: arguments" tabIndex={0}>
        <table class="rows stacks arguments">
          <thead>
            <tr>
              <th scope="col">argument</th>
              <th scope="col">meaning</th>
              <th scope="col">plain unit</th>
              <th scope="col">accepted</th>
              <th scope="col">such as</th>
            </tr>
          </thead>
          <tbody>
            {parameters.map((p) => {
              const parameter = declared.get(p.name);
              return (
                <tr data-argument={p.name}>
                  <th scope="row">
                    {p.name}
                    {p.optional && <span class="fine"> may be left out</span>}
                  </th>
                  <td>{p.summary}</td>
                  <td data-of="plain unit">{unitOf(parameter)}</td>
                  <td data-of="accepted">
                    {parameter ? (
                      acceptedBy(parameter.kind)
                    ) : (
                      <>
                        two columns or more; names of <a href={ASSUMPTIONS_FILE}>the assumptions</a>
                      </>
                    )}
                  </td>
                  <td data-of="such as">
                    <code>{p.example}</code>
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      <p class="fine">
        {d.result.kind !== 'table' &&
          `Each takes one cell or a range; ranges give one ${d.result.kind === 'rows' ? 'row' : 'value'} for each item. `}
        A text with a unit, such as 100 mm or 4-1/2", works in place of a plain number.
        {d.assume !== false && ' With SI: where a row of assume sets units to SI.'}
      </p>
    </>
  );
}

function Result({ d }: { readonly d: Declaration }) {
  const { result } = d;
  const unit = (quantity: Parameters<typeof plainUnit>[0]): string => {
    const [us, si] = [plainUnit(quantity, 'US'), plainUnit(quantity, 'SI')];
    return us === si ? us : `${us}; ${si} with SI`;
  };
  if (result.kind === 'value') {
    if (result.quantity === 'text') return <p>A text.</p>;
    return (
      <p>
        A number{unit(result.quantity) === '' ? '' : <>, in {unit(result.quantity)}</>}; for ranges one for each item.
      </p>
    );
  }
  const headless = result.kind === 'table' && result.headless;
  return (
    <>
      <p>
        {result.kind === 'rows'
          ? 'A heading, then a row for each item; a failed item fails in its own row.'
          : headless
            ? 'A table without a heading row.'
            : 'A heading, then rows.'}{' '}
        Columns:
      </p>
      <ol class="columns">
        {result.columns.map((c) => (
          <li>
            {c.heading}
            {c.quantity !== undefined && unit(c.quantity) !== '' && <span class="fine">, {unit(c.quantity)}</span>}
          </li>
        ))}
      </ol>
    </>
  );
}

function ModelText({ d }: { readonly d: Declaration }) {
  const model = backgroundOf(d.name);
  return (
    <dl class="model">
      <dt>How it is worked out</dt>
      <dd>{model.how}</dd>
      <dt>Where that holds</dt>
      <dd>{model.holds}</dd>
      <dt>What it leaves out</dt>
      <dd>{model.leavesOut}</dd>
    </dl>
  );
}

function Foundation({ kind, source }: { readonly kind: string; readonly source: string }) {
  const cited = source !== '' && source !== 'arithmetic' && findSource(source);
  if (!cited) return <>{kind}</>;
  return (
    <>
      {source === kind || kind === '' ? '' : `${kind}, `}
      <a href={`${SOURCES_FILE}#${sourceAnchor(source)}`}>{source}</a>
    </>
  );
}

/** The working up to the result; that of a plan stands with its operation's steps. */
function workingOf(d: Declaration, { steps, result, system, text }: Explained): ComponentChildren {
  if (d.result.kind === 'rows' && steps.length > 20) {
    const stepsOf = d.name.replace(/PLAN$/, 'STEPS');
    return (
      <p>
        The working of a row is that of one item: <a href={`${referencePage(stepsOf)}#working`}>{stepsOf}</a> has it,
        step by step.
      </p>
    );
  }
  const shown = steps.slice(0, steps.findIndex((s) => s.symbol === result) + 1 || steps.length);
  if (shown.length === 0) return undefined;
  return (
    <>
      <p>
        Of <code>={text}</code>, from what is given to the result. Each step uses those before it; the side pane shows
        the same for any cell.
      </p>
      <StepTable steps={shown} result={result} system={system} />
    </>
  );
}

function StepTable({
  steps,
  result,
  system,
}: {
  readonly steps: readonly WorkedStep[];
  /** Symbol of the step that is the result. */
  readonly result: string | undefined;
  readonly system: UnitSystem;
}) {
  return (
    <div class="scroll" role="region" aria-label="Table: working" tabIndex={0}>
      <table class="rows stacks steps">
        <thead>
          <tr>
            <th scope="col">step</th>
            <th scope="col">symbol</th>
            <th scope="col" class="number">
              value
            </th>
            <th scope="col">formula in words</th>
            <th scope="col">kind and source</th>
          </tr>
        </thead>
        <tbody>
          {steps.map((step) => (
            <tr class={step.symbol === result ? 'result' : undefined}>
              <th scope="row">
                {step.name}
                {step.symbol === result && (
                  <>
                    {' '}
                    <span class="tag">result</span>
                  </>
                )}
              </th>
              <td>
                <i>{step.symbol}</i>
              </td>
              <td class={typeof step.value === 'number' ? 'number' : undefined}>{showStep(step, system)}</td>
              <td>
                {step.assumption === undefined ? (
                  step.formula
                ) : (
                  <a href={`${ASSUMPTIONS_FILE}#${assumptionAnchor(step.assumption)}`}>{step.formula}</a>
                )}
              </td>
              <td>
                <Foundation kind={step.kind} source={step.source} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function AssumptionsUsed({ used, formula }: { readonly used: readonly UsedAssumption[]; readonly formula: string }) {
  if (used.length === 0) return <p>None.</p>;
  if (used.length > REGISTRY.length * 0.9)
    return (
      <p>
        It looks at <a href={ASSUMPTIONS_FILE}>every assumption</a>.
      </p>
    );
  return (
    <>
      <p>
        What <code>{formula}</code> asked for. Each can be replaced by a row of <code>assume</code>.
      </p>
      <div class="scroll" role="region" aria-label="Table: assumptions" tabIndex={0}>
        <table class="rows stacks">
          <thead>
            <tr>
              <th scope="col">name</th>
              <th scope="col" class="number">
                value
              </th>
              <th scope="col" class="number">
                low to high
              </th>
              <th scope="col">meaning</th>
              <th scope="col">kind and source</th>
            </tr>
          </thead>
          <tbody>
            {used.map(({ name, summary, value, low, high, unit, kind, source }) => (
              <tr>
                <th scope="row">
                  <a href={`${ASSUMPTIONS_FILE}#${assumptionAnchor(name)}`}>{name}</a>
                </th>
                <td class="number">{showWithUnit(value, unit)}</td>
                <td class="number" data-of={low === undefined ? undefined : 'low to high'}>
                  {low === undefined || high === undefined ? '' : `${showNumber(low)} to ${showNumber(high)}`}
                </td>
                <td>{summary}</td>
                <td>
                  <Foundation kind={kind} source={source} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function Cautions({ cautions }: { readonly cautions: readonly RaisedCaution[] }) {
  if (cautions.length === 0)
    return (
      <p>
        None of its own: those of the operation it is used for apply, as{' '}
        <a href={referencePage('BURN.CAUTIONS')}>BURN.CAUTIONS</a> lists them.
      </p>
    );
  return (
    <>
      <p>Most severe first; what is known here, not all there is.</p>
      <ul class="cautions">
        {cautions.map(({ severity, title, action, clause, source }) => (
          <li class={severity.replace(' ', '-')}>
            <p>
              <b>{title}</b> <span class="tag">{severity}</span>
            </p>
            <p>{action}</p>
            <p class="fine">
              {clause !== '' && `${clause}; `}
              <Foundation kind="" source={source} />
            </p>
          </li>
        ))}
      </ul>
    </>
  );
}

/** Sources declared, then those that the working and the assumptions add. */
function sourcesOf(d: Declaration, { steps, assumptions }: Explained): readonly string[] {
  const more = assumptions.length > REGISTRY.length * 0.9 ? [] : [...steps, ...assumptions].map((s) => s.source);
  return [...new Set([...d.sources, ...more])].filter(
    (key) => key !== '' && key !== 'arithmetic' && findSource(key) !== undefined,
  );
}

/** What follows a citation; a source that is none has no edition. */
export const editionOf = ({ edition }: Source): string => (edition === '' || edition === 'none' ? '' : `, ${edition}`);

function Sources({ keys }: { readonly keys: readonly string[] }) {
  if (keys.length === 0) return <p>None: it lists what the registers hold.</p>;
  return (
    <ul class="sources">
      {keys.map((key) => {
        const source = findSource(key);
        return (
          source && (
            <li>
              <a href={`${SOURCES_FILE}#${sourceAnchor(key)}`}>{key}</a>: {source.citation}
              {editionOf(source)}.
            </li>
          )
        );
      })}
    </ul>
  );
}

function Errors({ failures }: { readonly failures: Entry['failures'] }) {
  if (failures.length === 0) return <p>None of its own.</p>;
  return (
    <>
      <p>These formulas are meant to fail; each shows what the cell says.</p>
      <div class="scroll" role="region" aria-label="Table: errors" tabIndex={0}>
        <table class="rows stacks errors">
          <thead>
            <tr>
              <th scope="col">formula</th>
              <th scope="col">error</th>
              <th scope="col">what it says</th>
            </tr>
          </thead>
          <tbody>
            {failures.map(({ formula, error, message }) => (
              <tr>
                <td>
                  <code>{formula}</code>
                </td>
                <td class="failed">{error}</td>
                <td>{message}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function Related({ d }: { readonly d: Declaration }) {
  return (
    <ul>
      {relatedTo(d).map((other) => (
        <li>
          <a href={referencePage(other.name)}>{other.name}</a>: {other.summary}
        </li>
      ))}
    </ul>
  );
}
