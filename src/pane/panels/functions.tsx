import { useState } from 'preact/hooks';
import { CATALOGUE } from '../../catalogue/catalogue.ts';
import type { Declaration } from '../../catalogue/declaration.ts';
import { otherWords, wordsToFind } from '../../catalogue/other-words.ts';
import { plainUnit } from '../../core/units/parse-quantity.ts';
import { hostFunction } from '../../sheet/as-host-function.ts';
import { PutButton, type Put } from '../parts/put-button.tsx';
import { SearchBox, holdsWords } from '../parts/search-box.tsx';
import { SourceLink } from '../parts/source-link.tsx';

interface Props {
  readonly put: Put;
  readonly toSource: (key: string) => void;
}

function signature(d: Declaration): string {
  const names = hostFunction(d).parameters.map((p) => (p.optional ? `[${p.name}]` : p.name));
  return `${d.name}(${names.join(', ')})`;
}

function gives({ result }: Declaration): string {
  if (result.kind === 'rows') return 'Gives a heading and a row for each item.';
  if (result.kind === 'table') return 'Gives a table.';
  const unit =
    result.quantity === 'text'
      ? 'a text'
      : `a number${plainUnit(result.quantity, 'US') && ` (${plainUnit(result.quantity, 'US')})`}`;
  return `Gives ${unit}, for ranges one for each item.`;
}

function Entry({ declaration: d, put, toSource }: Props & { readonly declaration: Declaration }) {
  return (
    <details class="rs-function">
      <summary>
        <code>{d.name}</code> <span>{d.summary}</span>
      </summary>
      <p class="rs-formula">
        <code>{signature(d)}</code>
      </p>
      <p>{gives(d)}</p>
      {hostFunction(d).parameters.length > 0 && (
        <dl class="rs-lines">
          {hostFunction(d).parameters.map((p) => (
            <div>
              <dt>
                {p.name}
                {p.optional && <span class="rs-fine"> optional</span>}
              </dt>
              <dd>{p.summary}</dd>
            </div>
          ))}
        </dl>
      )}
      <ul class="rs-examples">
        {d.examples.map((formula) => (
          <li>
            <code>{formula}</code> <PutButton formula={formula} put={put} />
          </li>
        ))}
      </ul>
      {d.sources.length > 0 && (
        <p class="rs-fine">
          Rests on{' '}
          {d.sources.map((source, i) => (
            <>
              {i > 0 && ', '}
              <SourceLink source={source} toSource={toSource} />
            </>
          ))}
        </p>
      )}
    </details>
  );
}

const textOf = (d: Declaration): string =>
  `${d.name} ${d.summary} ${otherWords(d.name)} ${Object.entries(d.parameters)
    .map(([name, p]) => `${name} ${p.summary}`)
    .join(' ')}`;

/** The index of functions, by family. */
export function Functions({ put, toSource }: Props) {
  const [words, setWords] = useState('');
  const found = CATALOGUE.filter((d) => holdsWords(textOf(d), wordsToFind(words)));
  const families = [...new Set(found.map((d) => d.family))];
  return (
    <>
      <h2>Functions</h2>
      <SearchBox
        id="rs-search-functions"
        label="Search functions"
        words={words}
        hits={found.length}
        onWords={setWords}
      />
      {families.map((family) => (
        <section key={family} aria-label={family}>
          <h3>{family}</h3>
          {found
            .filter((d) => d.family === family)
            .map((d) => (
              <Entry key={d.name} declaration={d} put={put} toSource={toSource} />
            ))}
        </section>
      ))}
    </>
  );
}
