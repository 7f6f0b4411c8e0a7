import { OPERATION_IDS, operationOf } from '../core/operations/all.ts';
import { referencePage } from '../sheet/reference-page.ts';
import type { Entry } from './entries.ts';
import { ASSUMPTIONS_FILE, INDEX_FILE, JOB_FILE, SOURCES_FILE } from './files.ts';
import { syntaxOf } from './function-page.tsx';
import type { Page } from './page.ts';

/** What a family is about, besides the operations, which say so themselves. */
const FAMILIES: Readonly<Record<string, string>> = {
  ROD: 'Flow through rods, which rod to use, rods shared between holes',
  LISTS: 'Listings, versions, and what assumptions do',
  CYLINDER: 'What cylinders hold, how many, how they stand',
  HOSE: 'Pressure along a hose',
  SUPPLY: 'One supply line from cylinder to rod',
  COOL: 'Heat in a bored pin, and what it loosens',
  GRIP: 'What holds a pin, before and after',
  PUSH: 'Rams and spacers',
  GUARD: 'Guide and shield plates',
  JOB: 'Whole lists: spread, load, cost, shifts, the sheet to sign',
  LOG: 'Finished jobs: fitting and scoring',
  NOISE: 'Noise of a shift',
  AIR: 'Oxygen and fume in a room',
  FIRE: 'Fire watch and reach of hot metal',
  EYE: 'Filter shades',
  LEAD: 'Leads for lighting',
  BATTERY: 'Batteries for lighting',
  CAUTIONS: 'Cautions',
  PPE: 'What to wear',
};

export function familyTitle(family: string): string {
  if ((OPERATION_IDS as readonly string[]).includes(family)) {
    const { summary } = operationOf(family as (typeof OPERATION_IDS)[number]);
    return `${summary.charAt(0).toUpperCase()}${summary.slice(1)}`;
  }
  const title = FAMILIES[family];
  if (title === undefined) throw new Error(`the family ${family} has no title`);
  return title;
}

/** The first page: ways into the reference, then every function by family. `models` are the pages on the model. */
export function indexPage(entries: readonly Entry[], models: readonly Page[]): Page {
  const families = [...new Set(entries.map((e) => e.declaration.family))];
  return {
    file: INDEX_FILE,
    title: 'Rodsheet reference',
    lead: 'Spreadsheet functions that size oxygen, rods and time for exothermic-rod work: what each takes, gives, rests on and leaves out.',
    body: (
      <>
        <ul class="ways">
          <li>
            <a href={JOB_FILE}>A worked job</a>: from a list of seized pins to the quote, and what the finished job
            teaches.
          </li>
          {models.map((m) => (
            <li>
              <a href={m.file}>{m.title}</a>: {m.lead}
            </li>
          ))}
          <li>
            <a href={ASSUMPTIONS_FILE}>Assumptions</a>: every default with its low and high, and what it rests on.
          </li>
          <li>
            <a href={SOURCES_FILE}>Sources</a>: what the figures were taken from and checked against.
          </li>
        </ul>
        <div class="filter" hidden>
          <label for="words">Find a function</label>
          <input id="words" type="search" autocomplete="off" spellcheck={false} />
          <output for="words" />
        </div>
        <nav aria-label="Families">
          <ul class="on-page">
            {families.map((family) => (
              <li>
                <a href={`#family-${family.toLowerCase()}`}>{family}</a>
              </li>
            ))}
          </ul>
        </nav>
        {families.map((family) => (
          <section data-family={family} aria-labelledby={`family-${family.toLowerCase()}`}>
            <h2 id={`family-${family.toLowerCase()}`}>
              {family} <span class="fine">{familyTitle(family)}</span>
            </h2>
            <dl class="functions">
              {entries
                .filter((e) => e.declaration.family === family)
                .map((e) => (
                  <div data-function={e.declaration.name}>
                    <dt>
                      <a href={referencePage(e.declaration.name)}>
                        <code>{syntaxOf(e)}</code>
                      </a>
                    </dt>
                    <dd>{e.declaration.summary}</dd>
                  </div>
                ))}
            </dl>
          </section>
        ))}
      </>
    ),
  };
}
