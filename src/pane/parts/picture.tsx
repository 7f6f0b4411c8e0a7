import type { ComponentChildren } from 'preact';

/** A drawing with its title and its words for those who do not see it; `name` is its class and starts its ids, so no two on a page share one. */
export function Picture({
  name,
  width,
  height,
  title,
  description,
  caption,
  children,
}: {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly description: string;
  readonly caption: ComponentChildren;
  readonly children: ComponentChildren;
}) {
  return (
    <figure class={`rs-picture ${name}`}>
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={`${name}-title ${name}-description`}>
        <title id={`${name}-title`}>{title}</title>
        <desc id={`${name}-description`}>{description}</desc>
        {children}
      </svg>
      <figcaption>{caption}</figcaption>
    </figure>
  );
}
