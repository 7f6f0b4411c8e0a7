import { renderToString } from 'preact-render-to-string';
import { CALCULATION_VERSION } from '../core/version.ts';
import { RULES } from '../pane/texts.ts';
import type { Page } from './page.ts';

/** A page that the head of every page leads to. */
export interface Way {
  readonly file: string;
  readonly label: string;
}

const POLICY =
  "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'";

/** The whole document of a page. Nothing in it is asked for outside of its folder. */
export function documentOf({ file, title, lead, body }: Page, ways: readonly Way[], script?: string): string {
  return `<!doctype html>\n${renderToString(
    <html lang="en" class="rs-colours">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width" />
        <meta http-equiv="Content-Security-Policy" content={POLICY} />
        <title>{file === 'index.html' ? title : `${title} - Rodsheet reference`}</title>
        <link rel="icon" href="../assets/icon-32.png" />
        <link rel="stylesheet" href="reference.css" />
        {script !== undefined && <script src={script} defer />}
      </head>
      <body>
        <a class="skip" href="#content">
          To the content
        </a>
        <header class="head">
          <span class="name">Rodsheet reference</span>
          <nav aria-label="Reference">
            <ul>
              {ways.map((way) => (
                <li>
                  <a href={way.file} aria-current={way.file === file ? 'page' : undefined}>
                    {way.label}
                  </a>
                </li>
              ))}
            </ul>
          </nav>
        </header>
        <main id="content">
          <h1>{title}</h1>
          <p class="lead">{lead}</p>
          {body}
        </main>
        <footer class="foot">
          <p>{RULES}</p>
          <p class="fine">
            Calculation {CALCULATION_VERSION}. Every figure on these pages was calculated when they were written.
          </p>
        </footer>
      </body>
    </html>,
  )}\n`;
}
