/**
 * Whether a script can be read and run by the oldest engine that the manifest admits: one construct that it does not know
 * stops the whole script, functions and pane. Which engine knows what is taken from the browser compatibility data.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { parse } from 'acorn';
import { full } from 'acorn-walk';

/**
 * WebKit 15.4 of March 2022, the first with Object.hasOwn and findLast. On macOS the host shows add-ins in the WebKit of the
 * system, which the manifest's requirement sets do not name; the engines of the other hosts renew themselves.
 */
export const OLDEST = { browser: 'safari', version: 15.4, ecmaVersion: 2022 };

const DATA = createRequire(import.meta.url).resolve('@mdn/browser-compat-data');

/** Objects whose members are told by their own name only, as in Math.max: those of iterators are called take, map and the like. */
const NAMESPACES = ['Atomics', 'Intl', 'Iterator', 'JSON', 'Math', 'Reflect', 'WebAssembly'];

/**
 * What is newer than the oldest engine: whole objects, members by the name of their object, and names of methods that no
 * object of the oldest engine has, so that any call of them is too new. A method of the same name as an older one is not told.
 */
function newerThanOldest() {
  const { builtins } = JSON.parse(readFileSync(DATA, 'utf8')).javascript;
  const newer = { objects: new Set(), members: new Set(), methods: new Map() };
  const known = new Set();
  for (const [object, { __compat: of, ...members }] of Object.entries(builtins)) {
    if (of && since(of.support) > OLDEST.version) {
      newer.objects.add(object);
      continue;
    }
    for (const [name, { __compat: member }] of Object.entries(members)) {
      if (!member || !/^\w+$/.test(name)) continue;
      if (since(member.support) <= OLDEST.version) known.add(name);
      else {
        newer.members.add(`${object}.${name.replace(/_static$/, '')}`);
        if (!NAMESPACES.includes(object)) newer.methods.set(name, object);
      }
    }
  }
  for (const name of known) newer.methods.delete(name);
  return newer;
}

function since(support) {
  const entries = [support[OLDEST.browser] ?? []].flat().filter((s) => !s.flags && !s.partial_implementation);
  const versions = entries.map(({ version_added: v }) =>
    v === true ? 0 : Number.parseFloat(String(v).replace('≤', '')),
  );
  return Math.min(Infinity, ...versions.filter((v) => !Number.isNaN(v)));
}

let newer;

/** What of a script the oldest engine does not know, each with its place. */
export function unknownToOldest(script) {
  newer ??= newerThanOldest();
  const faults = [];
  const complain = (node, what) =>
    faults.push(`${what}: ${script.slice(Math.max(0, node.start - 20), node.start + 60).replace(/\s+/g, ' ')}`);
  const pattern = (node, source, flags) => {
    if (/\(\?<[=!]/.test(source)) complain(node, 'a lookbehind in a regular expression');
    if (/v/.test(flags)) complain(node, 'the flag v of a regular expression');
  };
  let tree;
  try {
    tree = parse(script, { ecmaVersion: OLDEST.ecmaVersion, sourceType: 'script' });
  } catch (error) {
    return [error.message];
  }
  full(tree, (node) => {
    if (node.type === 'StaticBlock')
      complain(node, 'a static block in a class'); // WebKit 16.4
    else if (node.type === 'Literal' && node.regex) pattern(node, node.regex.pattern, node.regex.flags);
    else if (node.type === 'MemberExpression' && !node.computed) {
      const { object, property } = node;
      if (newer.members.has(`${object.name}.${property.name}`)) complain(node, `${object.name}.${property.name}`);
      if (newer.objects.has(object.name)) complain(node, object.name);
    } else if (node.type === 'NewExpression' || node.type === 'CallExpression') {
      const { callee } = node;
      const method = callee.type === 'MemberExpression' && !callee.computed ? callee.property.name : undefined;
      if (newer.methods.has(method)) complain(node, `${newer.methods.get(method)}.${method}`);
      if (newer.objects.has(callee.name)) complain(node, callee.name);
      if (callee.name !== 'RegExp') return;
      const [source = '', flags = ''] = node.arguments.map((each) =>
        each.type === 'Literal' ? String(each.value) : '',
      );
      pattern(node, source, flags);
    }
  });
  return faults;
}

/** Fails the build where a script of the add-in is beyond the oldest engine. */
export class OldestEngine {
  constructor(names) {
    this.names = names;
  }

  apply(compiler) {
    compiler.hooks.thisCompilation.tap('OldestEngine', (compilation) => {
      const stage = compiler.webpack.Compilation.PROCESS_ASSETS_STAGE_REPORT;
      compilation.hooks.processAssets.tap({ name: 'OldestEngine', stage }, (assets) => {
        for (const name of Object.keys(assets).filter((file) => this.names.test(file)))
          for (const fault of unknownToOldest(String(assets[name].source())))
            compilation.errors.push(new compiler.webpack.WebpackError(`${name}: ${fault}`));
      });
    });
  }
}
