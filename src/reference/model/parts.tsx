import type { ComponentChildren } from 'preact';
import { findSource } from '../../core/sources/register.ts';
import { referencePage } from '../../sheet/reference-page.ts';
import { SOURCES_FILE, sourceAnchor } from '../files.ts';
import { numberText } from '../../pane/charts/number-text.ts';

/** A source of the register, by key. */
export function Cite({ source }: { readonly source: string }) {
  if (!findSource(source)) throw new Error(`the register has no source ${source}`);
  return <a href={`${SOURCES_FILE}#${sourceAnchor(source)}`}>{source}</a>;
}

/** A function, with the way to its page. */
export const Fn = ({ name }: { readonly name: string }) => (
  <a href={referencePage(name)}>
    <code>{name}</code>
  </a>
);

/** An equation with its symbols and sources, for the curious. */
export function Equation({
  says,
  formula,
  symbols,
  sources,
}: {
  readonly says: string;
  readonly formula: string;
  readonly symbols: string;
  readonly sources: readonly string[];
}) {
  return (
    <div class="equation-with-words">
      <p>{says}</p>
      <code class="equation">{formula}</code>
      <p class="fine">
        {symbols}{' '}
        {sources.map((s, i) => (
          <>
            {i > 0 && ', '}
            <Cite source={s} />
          </>
        ))}
        .
      </p>
    </div>
  );
}

/** Plots side by side where there is room. */
export const Pair = ({ children }: { readonly children: ComponentChildren }) => <div class="pair">{children}</div>;

export const n = numberText;
