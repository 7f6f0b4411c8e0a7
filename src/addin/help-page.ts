/** The page behind the host's help link: every function with its arguments, from the same declarations as functions.json. */
import type { HostFunction } from '../sheet/host-function.ts';
import { functionId } from './function-id.ts';

const STYLE =
  ':root{color-scheme:light dark}body{font:16px/1.5 system-ui,sans-serif;margin:2rem auto;max-width:46rem;padding:0 1rem}' +
  'h2{font:600 1.1rem ui-monospace,monospace;margin:2rem 0 .25rem}dt{font-weight:600}dd{margin:0 0 .5rem 1.5rem}';

export function helpPage(functions: readonly HostFunction[]): string {
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>Rodsheet functions</title>
<style>${STYLE}</style>
<h1>Rodsheet functions</h1>
<p>Every argument takes one cell or a range; arguments in square brackets may be left out. The figures are estimates
with a low and a high. They do not say that a job is safe: follow the site's permits, the local codes and the people
licensed or qualified for the work.</p>
${functions.map(section).join('\n')}
</html>
`;
}

function section(f: HostFunction): string {
  const names = f.parameters.map((p) => (p.optional ? `[${p.name}]` : p.name));
  const list = f.parameters.map((p) => `<dt>${escaped(p.name)}</dt><dd>${escaped(p.summary)}</dd>`).join('');
  return `<h2 id="${functionId(f.name)}">${escaped(`${f.name}(${names.join(', ')})`)}</h2>
<p>${escaped(f.summary)}</p>${list && `\n<dl>${list}</dl>`}`;
}

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
}
