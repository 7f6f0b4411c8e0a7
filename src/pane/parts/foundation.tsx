import type { Kind } from '../../core/model/step.ts';
import { SourceLink } from './source-link.tsx';

/** How well a figure is founded, with its source. */
export function Foundation({
  kind,
  source,
  toSource,
}: {
  readonly kind: Kind;
  readonly source: string;
  readonly toSource: (key: string) => void;
}) {
  const cited = source !== '' && source !== 'arithmetic';
  return (
    <span class="rs-foundation">
      {source === kind ? null : <span class={`rs-kind rs-kind-${kind.replace(' ', '-')}`}>{kind}</span>}
      {cited && <SourceLink source={source} toSource={toSource} />}
    </span>
  );
}
