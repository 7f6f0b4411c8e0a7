import { findSource } from '../../core/sources/register.ts';

/** Id of a source's entry in the list of references. */
export const sourceId = (key: string): string => `rs-source-${key.replace(/[^a-z0-9]+/gi, '-')}`;

/** A link to the entry of a source; a key that the register lacks stands as it is. */
export function SourceLink({
  source,
  toSource,
}: {
  readonly source: string;
  readonly toSource: (key: string) => void;
}) {
  if (!findSource(source)) return <>{source}</>;
  return (
    <a
      href={`#${sourceId(source)}`}
      onClick={(e) => {
        e.preventDefault();
        toSource(source);
      }}
    >
      {source}
    </a>
  );
}
