import { ESLint } from 'eslint';
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
    ['src/core/model/trace.ts', '../burn/materials.ts', 'core/model must not import core/burn/materials.ts'],
    [
      'src/core/assumptions/registry.ts',
      '../../catalogue/cell.ts',
      'core/assumptions must not import catalogue/cell.ts',
    ],
    ['src/core/assumptions/registry.ts', 'preact', 'core/assumptions must not import package preact'],
    ['src/core/assumptions/registry.ts', 'node:fs', 'core/assumptions must not import package node:fs'],
    ['src/core/spread/pert.ts', '../job/job-cost.ts', 'core/spread must not import core/job/job-cost.ts'],
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
    ['src/core/model/trace.ts', '../units/quantities.ts'],
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
