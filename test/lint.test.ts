import { ESLint } from 'eslint';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const root = new URL('..', import.meta.url).pathname;
const eslint = new ESLint({
  cwd: root,
  overrideConfigFile: `${root}.eslint.config.mjs`,
  ruleFilter: ({ ruleId }) => ruleId.endsWith('one-way-imports'),
  // The rule reads no types, and reading those of the whole tree takes a busy machine longer than a test may.
  overrideConfig: { languageOptions: { parserOptions: { projectService: false } } },
});

/** What the rule says of an import written into a file that exists in the tree. */
async function refused(
  file: string,
  source: string,
  statement = `import { x } from '${source}';\nx();\n`,
): Promise<readonly string[]> {
  const [result] = await eslint.lintText(statement, { filePath: `${root}${file}` });
  return (result?.messages ?? []).map((m) => m.message);
}

describe('imports go one way', () => {
  it.each([
    ['src/core/errors.ts', '../sheet/host-function.ts', 'core/errors must not import sheet/host-function.ts'],
    ['src/core/errors.ts', './assumptions/registry.ts', 'core/errors must not import core/assumptions/registry.ts'],
    ['src/core/model/step.ts', '../burn/materials.ts', 'core/model must not import core/burn/materials.ts'],
    [
      'src/core/assumptions/registry.ts',
      '../../catalogue/cell.ts',
      'core/assumptions must not import catalogue/cell.ts',
    ],
    ['src/core/assumptions/registry.ts', 'preact', 'core/assumptions must not import package preact'],
    ['src/core/assumptions/registry.ts', 'node:fs', 'core/assumptions must not import package node:fs'],
    ['src/core/spread/johnson.ts', '../job/job-cost.ts', 'core/spread must not import core/job/job-cost.ts'],
    ['src/core/operations/pin.ts', '../safety/ppe.ts', 'core/operations must not import core/safety/ppe.ts'],
    ['src/catalogue/cell.ts', '../sheet/host-function.ts', 'catalogue must not import sheet/host-function.ts'],
    ['src/sheet/host-function.ts', '../addin/associate.ts', 'sheet must not import addin/associate.ts'],
    ['src/sheet/host-function.ts', '../../package.json', 'sheet must not import outside src: ../../package.json'],
    ['src/addin/associate.ts', '../engine/engine.ts', 'addin must not import engine/engine.ts'],
    ['src/addin/associate.ts', '../cli/calc.ts', 'addin must not import cli/calc.ts'],
  ])('%s is refused %s', async (file, source, message) => {
    expect(await refused(file, source)).toEqual([message]);
  });

  it('in whatever form they are written', async () => {
    const forms = [
      `import type { X } from '../addin/associate.ts';\nexport type Y = X;\n`,
      `export { associate } from '../addin/associate.ts';\n`,
      `export * from '../addin/associate.ts';\n`,
      `export const later = () => import('../addin/associate.ts');\n`,
    ];
    for (const form of forms)
      expect(await refused('src/core/errors.ts', '', form)).toEqual(['core/errors must not import addin/associate.ts']);
  });

  it.each([
    ['src/core/messages.ts', './errors.ts'],
    ['src/core/model/step.ts', '../units/quantities.ts'],
    ['src/core/assumptions/registry.ts', '../units/quantities.ts'],
    ['src/catalogue/cell.ts', '../core/errors.ts'],
    ['src/sheet/host-function.ts', '../catalogue/cell.ts'],
    ['src/addin/associate.ts', '../sheet/host-function.ts'],
    ['src/addin/associate.ts', '../pane/pane.ts'],
    ['src/addin/associate.ts', 'preact'],
  ])('%s may import %s', async (file, source) => {
    expect(await refused(file, source)).toEqual([]);
  });
});

/** What each file of src imports of src, types and later loads too. */
function importsOfSrc(): ReadonlyMap<string, readonly string[]> {
  const src = `${root}src`;
  const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter((name) => /\.(tsx?|mjs)$/.test(name));
  return new Map(
    files.map((file) => [
      file,
      ts
        .preProcessFile(readFileSync(path.join(src, file), 'utf8'))
        .importedFiles.map(({ fileName }) => path.join(path.dirname(file), fileName))
        .filter((to) => files.includes(to)),
    ]),
  );
}

/** One circle of files that import each other, the first again at the end; undefined where there is none. */
function circle(imports: ReadonlyMap<string, readonly string[]>): readonly string[] | undefined {
  // Files that import nothing that is left are in no circle.
  const left = new Map(imports);
  const within = (file: string): readonly string[] => (left.get(file) ?? []).filter((to) => left.has(to));
  for (let before = Infinity; left.size < before;) {
    before = left.size;
    for (const file of left.keys()) if (within(file).length === 0) left.delete(file);
  }
  const way: string[] = [];
  for (let [at] = left.keys(); at !== undefined; [at] = within(at)) {
    if (way.includes(at)) return [...way.slice(way.indexOf(at)), at];
    way.push(at);
  }
  return undefined;
}

describe('files do not import each other in a circle', () => {
  it('in src', () => {
    const imports = new Map(importsOfSrc());
    expect(circle(imports)?.join(' imports ')).toBeUndefined();
  });

  it('which would be seen', () => {
    const imports = new Map([
      ['a', ['b', 'e']],
      ['b', ['c']],
      ['c', ['d', 'b']],
      ['d', []],
      ['e', []],
    ]);
    expect(circle(imports)).toEqual(['b', 'c', 'b']);
    expect(circle(new Map([...imports, ['c', ['d']]]))).toBeUndefined();
  });
});
