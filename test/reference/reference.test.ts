/** The reference as a reader has it: every page is rendered and read again; figures are held against calculations of their own. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { JSDOM } from 'jsdom';
import type { AxeResults } from 'axe-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import { isCellError, type Cell } from '../../src/catalogue/cell.ts';
import { backgroundOf } from '../../src/catalogue/background.ts';
import { REGISTRY } from '../../src/core/assumptions/registry.ts';
import { SOURCES } from '../../src/core/sources/register.ts';
import { showCell } from '../../src/pane/show-cell.ts';
import { filterFunctions } from '../../src/reference/filter.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { referencePage } from '../../src/sheet/reference-page.ts';
import { calculateWorkbook } from '../../src/engine/headless.ts';
import type { CalculatedWorkbook } from '../../src/sheet/described-workbook.ts';
import { renderedPages, textOf } from './pages.ts';

/** Files that the build puts beside the pages. */
const BESIDE = ['reference.css', 'filter.js', '../assets/icon-32.png'];

let pages: Awaited<ReturnType<typeof renderedPages>>;
/** The declared examples, each typed as it is into the first cell of a sheet. */
let fresh: CalculatedWorkbook;
const examples = CATALOGUE.flatMap((d) => d.examples.map((formula) => ({ d, formula })));

beforeAll(async () => {
  [pages, fresh] = await Promise.all([
    renderedPages(),
    calculateWorkbook(
      { sheets: examples.map(({ formula }, i) => ({ name: `Example${i}`, cells: { A1: formula } })) },
      hostFunctions,
    ),
  ]);
});

const pageOf = (name: string): Document => {
  const page = pages.get(referencePage(name));
  if (!page) throw new Error(`${name} has no page`);
  return page.document;
};

/** A sheet table as rows of texts, its parts side by side again, without letters and row numbers. */
function cellsOf(figure: Element): readonly (readonly string[])[] {
  const parts = [...figure.querySelectorAll('table')].map((t) =>
    [...t.querySelectorAll('tbody tr')].map((tr) => [...tr.querySelectorAll('td')].map((td) => td.textContent)),
  );
  return (parts[0] ?? []).map((_, r) => parts.flatMap((part) => part[r] ?? []));
}

const shown = (cell: Cell): string => (isCellError(cell) ? `${cell.error} ${cell.message}`.trim() : showCell(cell));

describe('the pages', () => {
  it('are one for each function, the index, the worked job, the registers, and those on the model', () => {
    for (const d of CATALOGUE) expect(textOf(pageOf(d.name).querySelector('h1'))).toBe(d.name);
    expect([...pages.keys()]).toEqual(
      expect.arrayContaining(['index.html', 'worked-job.html', 'assumptions.html', 'references.html']),
    );
    expect(new Set([...pages.values()].map(({ document }) => document.title)).size).toBe(pages.size);
  });

  it('link only to pages and places that are there', () => {
    const lost: string[] = [];
    for (const [file, { document }] of pages) {
      for (const element of document.querySelectorAll('[href], [src]')) {
        const link = element.getAttribute('href') ?? element.getAttribute('src') ?? '';
        const [to = '', place] = link.split('#');
        const target = to === '' ? document : pages.get(to)?.document;
        if (BESIDE.includes(to)) continue;
        if (!target || (place !== undefined && !target.getElementById(place))) lost.push(`${file}: ${link}`);
      }
    }
    expect(lost).toEqual([]);
  });

  it('ask for nothing outside their folder, and carry no style or script of their own', () => {
    for (const [file, { html, document }] of pages) {
      expect(
        document.querySelector('meta[http-equiv="Content-Security-Policy"]')?.getAttribute('content'),
        file,
      ).toContain("default-src 'none'");
      expect(html, file).not.toMatch(/(?:src|href)="(?:https?:)?\/\//);
      expect(document.querySelectorAll('[style], style, script:not([src])').length, file).toBe(0);
      expect(
        [...document.querySelectorAll('*')]
          .flatMap((e) => e.getAttributeNames())
          .filter((name) => name.startsWith('on')),
        file,
      ).toEqual([]);
    }
  });

  it('show no number that is none, and nothing left unfilled', () => {
    for (const [file, { document }] of pages) {
      expect(document.body.textContent, file).not.toMatch(/NaN|Infinity|undefined|\[object|null\b|\$\{/);
    }
  });

  it("name nobody's job safe", () => {
    for (const [file, { document }] of pages) {
      expect(textOf(document.querySelector('footer')), file).toContain(
        'Local codes, the employer’s permit and licensed or qualified people rule',
      );
      const sentences = document.body.textContent
        .split(/(?<=[.;:])\s/)
        .filter((s) => /\b(?:is|are) (?:\w+ )?safe\b(?! side)/.test(s));
      expect(
        sentences.filter((s) => !/\b(?:no|not|none|nothing|never)\b/i.test(s)),
        file,
      ).toEqual([]);
    }
  });

  it('have no id twice', () => {
    for (const [file, { document }] of pages) {
      const ids = [...document.querySelectorAll('[id]')].map((e) => e.id);
      expect(
        ids.filter((id, i) => ids.indexOf(id) !== i),
        file,
      ).toEqual([]);
    }
  });
});

describe('the page of a function', () => {
  it('lists the arguments that are declared, in order, and says which may be left out', () => {
    for (const f of hostFunctions) {
      const rows = [...pageOf(f.name).querySelectorAll('[data-argument]')];
      expect(
        rows.map((row) => row.getAttribute('data-argument')),
        f.name,
      ).toEqual(f.parameters.map((p) => p.name));
      rows.forEach((row, i) => {
        const p = f.parameters[i]!;
        expect(textOf(row), f.name).toContain(p.summary.replace(/\s+/g, ' '));
        expect(textOf(row.querySelector('th')).includes('may be left out'), `${f.name} ${p.name}`).toBe(p.optional);
      });
      expect(textOf(pageOf(f.name).querySelector('.formula'))).toBe(
        `${f.name}(${f.parameters.map((p) => (p.optional ? `[${p.name}]` : p.name)).join(', ')})`,
      );
    }
  });

  it('shows each declared example with what the formula gives when it is typed into a cell', () => {
    for (const [i, { d, formula }] of examples.entries()) {
      const block = [...pageOf(d.name).querySelectorAll('[data-example]')].find(
        (e) => e.getAttribute('data-example') === formula,
      );
      const figures = [...(block?.querySelectorAll('figure') ?? [])];
      const gives = fresh.spilledAt(i, 0, 0);
      const width = gives[0]?.length ?? 0;
      expect(gives.flat().filter(isCellError), formula).toEqual([]);
      const last = cellsOf(figures.at(-1)!);
      // Beside its data a result stands in the last columns, below a heading row.
      const beside = (last[0]?.length ?? 0) > width;
      const rows = (beside ? last.slice(1) : last).map((row) => row.slice(row.length - width));
      expect(rows.length, formula).toBeGreaterThan(0);
      expect(rows, formula).toEqual(gives.slice(0, rows.length).map((row) => row.map(shown)));
      if (rows.length < gives.length)
        expect(textOf(block), formula).toContain(`And ${gives.length - rows.length} more rows`);
    }
  });

  it('shows formulas that fail as meant to fail, with what the cell says', async () => {
    const rows = CATALOGUE.flatMap((d) =>
      [...pageOf(d.name).querySelectorAll('.errors tbody tr')].map((tr) =>
        [...tr.querySelectorAll('td')].map((td) => td.textContent),
      ),
    );
    const again = await calculateWorkbook(
      { sheets: rows.map(([formula = ''], i) => ({ name: `Failing${i}`, cells: { A1: formula } })) },
      hostFunctions,
    );
    expect(rows.length).toBeGreaterThan(CATALOGUE.length);
    rows.forEach(([formula, error, message], i) => {
      expect(again.spilledAt(i, 0, 0).flat().find(isCellError), formula).toEqual({ error, message });
    });
    for (const d of CATALOGUE)
      if (pageOf(d.name).querySelector('.errors'))
        expect(textOf(pageOf(d.name).getElementById('errors')?.parentElement)).toContain(
          'These formulas are meant to fail',
        );
  });

  it('says how its figures are worked out, where that holds and what it leaves out', () => {
    for (const d of CATALOGUE) {
      const { how, holds, leavesOut } = backgroundOf(d.name);
      expect(
        [...pageOf(d.name).querySelectorAll('.model dd')].map((dd) => dd.textContent),
        d.name,
      ).toEqual([how, holds, leavesOut]);
      for (const text of [how, holds, leavesOut]) expect(text, d.name).toMatch(/^[A-Z\d-].*\.$/s);
    }
  });

  it('ends the working of a number in the number', () => {
    for (const d of CATALOGUE) {
      if (d.result.kind !== 'value' || d.result.quantity === 'text') continue;
      const document = pageOf(d.name);
      const result = document.querySelector('.steps .result');
      const [gives] = [...document.querySelectorAll('[data-example] > p > b')].map(textOf);
      if (d.examples[0]?.includes('{')) continue;
      expect(textOf(result?.querySelector('td.number')), d.name).toBe(gives?.replace('%', ' %'));
      expect(result, d.name).toBe(document.querySelector('.steps tbody tr:last-child'));
    }
  });

  it('says of every argument that may be left out what is used then', () => {
    for (const d of CATALOGUE) {
      for (const [name, p] of Object.entries(d.parameters))
        if (p.optional) expect(p.summary, `${d.name} ${name}`).toContain('left out');
    }
  });
});

describe('the registers', () => {
  it('hold every assumption and every source, each at its place', () => {
    const assumptions = pages.get('assumptions.html')?.document;
    expect([...(assumptions?.querySelectorAll('tbody th') ?? [])].map(textOf)).toEqual(REGISTRY.map((a) => a.name));
    expect([...(pages.get('references.html')?.document.querySelectorAll('dt') ?? [])].map(textOf)).toEqual(
      SOURCES.map((s) => s.key),
    );
  });
});

describe('the worked job', () => {
  it('shows no failed cell and writes every figure of its prose from its sheets', () => {
    const document = pages.get('worked-job.html')!.document;
    expect([...document.querySelectorAll('.failed')].map(textOf)).toEqual([]);
    const source = readFileSync(new URL('../../src/reference/worked-job.tsx', import.meta.url), 'utf8');
    const prose = [...source.matchAll(/<p>([\s\S]*?)<\/p>/g)].map(([, text = '']) =>
      text.replace(/<[^>]*>/g, '').replace(/\{(?:[^{}]|\{[^{}]*\})*\}/g, ''),
    );
    // What is typed in the prose are inputs: the hose, the boss and a thinner one, the next pin, the shift, and shares of cases.
    const typed = prose.flatMap((text) => text.match(/\d[\d./-]*/g) ?? []);
    expect([...new Set(typed)].sort()).toEqual(['1.8', '10', '100', '12', '14', '3/8', '4-1/2']);
  });
});

describe('the index', () => {
  it('narrows to the functions that hold all the words typed, and comes back', () => {
    const { window } = new JSDOM(pages.get('index.html')!.html);
    const { document } = window;
    const visible = (): readonly (string | null)[] =>
      [...document.querySelectorAll<HTMLElement>('[data-function]')]
        .filter((e) => !e.hidden && !e.closest<HTMLElement>('[data-family]')?.hidden)
        .map((e) => e.getAttribute('data-function'));
    const all = visible();
    expect([...all].sort()).toEqual(CATALOGUE.map((d) => d.name).sort());
    expect(document.querySelector<HTMLElement>('.filter')?.hidden).toBe(true);
    filterFunctions(document);
    const input = document.querySelector('input')!;
    const type = (words: string): void => {
      input.value = words;
      input.dispatchEvent(new window.Event('input'));
    };
    type('Hose SETTING');
    expect(visible()).toContain('BURN.HOSE.SETTING');
    expect(visible()).not.toContain('BURN.FIRE.WATCH');
    expect(textOf(document.querySelector('output'))).toBe(`${visible().length} found`);
    type('');
    expect(visible()).toEqual(all);
  });
});

describe('axe-core', () => {
  const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  // jsdom has no layout: contrast and sizes are looked at in a browser.
  const rules = {
    'color-contrast': { enabled: false },
    'target-size': { enabled: false },
    'scrollable-region-focusable': { enabled: false },
  };

  it.each([
    'index.html',
    'worked-job.html',
    'references.html',
    'hose-setting.html',
    'job-cost.html',
    'noise-hours.html',
  ])('finds nothing on %s', async (file) => {
    const { window } = new JSDOM(pages.get(file)!.html, { runScripts: 'outside-only' });
    (window as unknown as { eval(code: string): void }).eval(axe);
    const { violations } = await (
      window as unknown as { axe: { run(context: Document, options: unknown): Promise<AxeResults> } }
    ).axe.run(window.document, { rules });
    expect(
      violations.map(
        (v) =>
          `${v.id}: ${v.nodes
            .map((n) => n.html.slice(0, 120))
            .slice(0, 3)
            .join(' | ')}`,
      ),
    ).toEqual([]);
  });
});
