/** Lint: strict types, and imports that go one way only (see `layers`). Run as `npm run lint`. */
import tseslint from 'typescript-eslint';

/**
 * What a folder of src may import besides itself; core <- catalogue <- sheet <- hosts. A host never imports another,
 * but the pane is shown by two of them, and the trial, the reference and the command line calculate with one engine.
 */
const layers = {
  core: [],
  catalogue: ['core'],
  sheet: ['core', 'catalogue'],
  pane: ['core', 'catalogue', 'sheet'],
  addin: ['core', 'catalogue', 'sheet', 'pane'],
  engine: ['core', 'catalogue', 'sheet'],
  trial: ['core', 'catalogue', 'sheet', 'pane', 'engine'],
  reference: ['core', 'catalogue', 'sheet', 'engine', 'pane'],
  cli: ['core', 'catalogue', 'sheet', 'engine'],
};

/** The layers below the hosts run anywhere: no packages, nothing of Node. */
const pure = ['core', 'catalogue', 'sheet'];

/** Folders of core that all of core may use; they import one another and nothing else of core. */
const commonCore = ['units', 'trace', 'errors', 'messages'];

/** Refuses a relative import that leaves the folder for one that `layers` does not list. */
const oneWay = {
  meta: { type: 'problem', schema: [], messages: { refused: '{{from}} must not import {{to}}' } },
  create(context) {
    const inside = context.filename.replaceAll('\\', '/').split('/src/').pop();
    const [layer] = inside.split('/');
    if (!(layer in layers)) return {};
    const check = (node) => {
      const source = node.source?.value;
      if (typeof source !== 'string') return;
      const to = target(inside, source);
      if (!to) return;
      const within = (folder) => to === folder || to.startsWith(`${folder}/`) || to.startsWith(`${folder}.`);
      const allowed = to.startsWith('package ') ? !pure.includes(layer) : [layer, ...layers[layer]].some(within);
      const from = common(inside);
      if (!allowed || (from && to.startsWith('core/') && !common(to))) {
        context.report({ node, messageId: 'refused', data: { from: from ? `core/${from}` : layer, to } });
      }
    };
    return {
      ImportDeclaration: check,
      ExportNamedDeclaration: check,
      ExportAllDeclaration: check,
      ImportExpression: check,
    };
  },
};

/** Where an import of a file inside src leads: a path inside src, or the name of a package. */
function target(inside, source) {
  if (!source.startsWith('.')) return `package ${source}`;
  const path = inside.split('/').slice(0, -1);
  for (const part of source.split('/')) {
    if (part === '..') {
      if (path.pop() === undefined) return `outside src: ${source}`;
    } else if (part !== '.') path.push(part);
  }
  return path.join('/');
}

function common(path) {
  const [, second = ''] = path.startsWith('core/') ? path.split('/') : [];
  return commonCore.find((name) => name === second.replace(/\.ts$/, ''));
}

export default tseslint.config(
  { ignores: ['dist/**', 'node_modules/**'] },
  {
    files: ['src/**/*.{ts,tsx}', 'test/**/*.{ts,tsx}'],
    extends: [tseslint.configs.strictTypeChecked],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      // Indices are checked by noUncheckedIndexedAccess; where a loop's bounds prove one, `!` says so.
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      // Numbers belong in messages; the texts say how they are rounded.
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
    },
  },
  {
    // A cell that is an error shows as [object Object] in a failed assertion, which is as good as its code.
    files: ['test/**/*.{ts,tsx}'],
    rules: { '@typescript-eslint/no-base-to-string': 'off' },
  },
  {
    files: ['src/**/*.{ts,tsx}'],
    plugins: { rodsheet: { rules: { 'one-way-imports': oneWay } } },
    rules: { 'rodsheet/one-way-imports': 'error' },
  },
);
