/** Lint: strict types, and imports that go one way only (see `layers`). Run as `npm run lint`. */
import tseslint from 'typescript-eslint';

/**
 * What a folder of src may import besides itself; core <- catalogue <- sheet <- hosts. A host never imports another,
 * but the pane is shown by three of them, the trial, the reference and the command line calculate with one engine, and
 * what reads and writes files serves both the page and the command line.
 */
const layers = {
  core: [],
  catalogue: ['core'],
  sheet: ['core', 'catalogue'],
  files: ['core', 'catalogue', 'sheet'],
  formula: ['core', 'catalogue', 'sheet', 'files'],
  check: ['core', 'catalogue', 'sheet', 'files', 'formula'],
  pane: ['core', 'catalogue', 'sheet', 'files', 'formula', 'check'],
  addin: ['core', 'catalogue', 'sheet', 'files', 'pane'],
  engine: ['core', 'catalogue', 'sheet'],
  plain: ['core', 'catalogue', 'sheet', 'files', 'formula', 'pane'],
  trial: ['core', 'catalogue', 'sheet', 'files', 'pane', 'engine', 'plain'],
  reference: ['core', 'catalogue', 'sheet', 'formula', 'engine', 'pane'],
  cli: ['core', 'catalogue', 'sheet', 'files', 'formula', 'check', 'engine', 'plain'],
  libreoffice: ['core', 'catalogue', 'sheet', 'files', 'formula', 'pane'],
  release: ['core', 'pane', 'addin', 'libreoffice'],
};

/** The layers below the hosts run anywhere: no packages, nothing of Node. */
const pure = ['core', 'catalogue', 'sheet'];

/** Rooms of core, the lowest first: a room imports itself and those before it. `units`, `errors` and `messages` serve one another. */
const rooms = [
  ['units', 'errors', 'messages', 'version'],
  ['model'],
  ['sources', 'assumptions'],
  ['basis'],
  ['spread'],
  ['oxygen'],
  ['burn'],
  ['heat'],
  ['fit'],
  ['operations'],
  ['safety'],
  ['job'],
];

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
      const [from, over] = [room(inside), room(to)];
      if (!allowed || (from !== undefined && over !== undefined && over > from)) {
        context.report({
          node,
          messageId: 'refused',
          data: { from: from === undefined ? layer : roomName(inside), to },
        });
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

function roomName(path) {
  return path.split('/').slice(0, 2).join('/').replace(/\.ts$/, '');
}

/** Place of a path of core among the rooms; undefined outside core. */
function room(path) {
  if (!path.startsWith('core/')) return undefined;
  const name = roomName(path).slice('core/'.length);
  const place = rooms.findIndex((names) => names.includes(name));
  return place === -1 ? Infinity : place;
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
