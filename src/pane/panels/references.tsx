import { SOURCES } from '../../core/sources/register.ts';
import type { Source } from '../../core/sources/source.ts';
import { SearchBox, holdsWords } from '../parts/search-box.tsx';
import { sourceId } from '../parts/source-link.tsx';

function Entry({ source, cited }: { readonly source: Source; readonly cited: boolean }) {
  return (
    <li id={sourceId(source.key)} tabIndex={-1} class={cited ? 'rs-selected' : undefined}>
      <b>{source.key}</b>
      <p>{source.citation}</p>
      <dl class="rs-lines">
        <div>
          <dt>edition</dt>
          <dd>{source.edition}</dd>
        </div>
        <div>
          <dt>used for</dt>
          <dd>{source.usedFor}</dd>
        </div>
      </dl>
    </li>
  );
}

/** The register of sources; `cited` is the key that a link led to. */
export function References({
  cited,
  words,
  onWords,
  onBack,
}: {
  readonly cited: string | undefined;
  readonly words: string;
  readonly onWords: (words: string) => void;
  readonly onBack: () => void;
}) {
  const found = SOURCES.filter((s) => holdsWords(`${s.key} ${s.citation} ${s.edition} ${s.usedFor}`, words));
  return (
    <>
      <h2>References</h2>
      {cited !== undefined && (
        <button type="button" class="rs-back" onClick={onBack}>
          Back to where it is cited
        </button>
      )}
      <SearchBox
        id="rs-search-references"
        label="Search references"
        words={words}
        hits={found.length}
        onWords={onWords}
      />
      <ul class="rs-sources">
        {found.map((source) => (
          <Entry key={source.key} source={source} cited={source.key === cited} />
        ))}
      </ul>
    </>
  );
}
