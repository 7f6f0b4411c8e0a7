import path from 'node:path';
import { parse } from 'acorn';
import { simple } from 'acorn-walk';
import { builtModule } from './built-module.mjs';

/** What declares a function, and the properties of a declaration, or of the part several share, that no calculation reads. */
const DECLARES = /^(value|worked|rows|table)Function$/;
const WORDS = /^(family|summary|examples)$/;
/** What declares a parameter: its kind, then its words. */
const PARAMETER = /^(required|optional)$/;
/** Words of an operation's size, which has a symbol besides. */
const SIZE_WORDS = /^(summary|example)$/;

/** Leaves out of declarations what only a reader wants. */
function withoutWords(source) {
  const left = new Map();
  const leave = ({ properties }, words) => {
    for (const { key, start, end } of properties)
      if (words.test(key?.name)) left.set(start, end + /^\s*,?/.exec(source.slice(end))[0].length);
  };
  const has = ({ properties }, name) => properties.some(({ key }) => key?.name === name);
  simple(parse(source, { ecmaVersion: 'latest', sourceType: 'module' }), {
    CallExpression({ callee, arguments: given }) {
      if (callee.type !== 'Identifier') return;
      if (PARAMETER.test(callee.name)) left.set(given[0].end, given.at(-1).end);
      if (DECLARES.test(callee.name) && given[0]?.type === 'ObjectExpression') leave(given[0], WORDS);
    },
    ObjectExpression(object) {
      if (has(object, 'parameters') && has(object, 'assume')) leave(object, WORDS);
      if (has(object, 'symbol') && has(object, 'example')) leave(object, SIZE_WORDS);
    },
  });
  const fromEnd = [...left].sort(([a], [b]) => b - a);
  return fromEnd.reduce((text, [start, end]) => text.slice(0, start) + text.slice(end), source);
}

/** The words of all declared functions, as a script. */
async function allWords(loader) {
  const { module, inputs } = await builtModule('src/catalogue/function-words.ts');
  for (const file of inputs) loader.addDependency(path.join(loader.rootContext, file));
  return `export const WORDS = ${JSON.stringify(module.functionWords())};`;
}

/**
 * The loader of the declared functions and, with the option `all`, of the pane's words: what only a reader of the pane wants, a
 * twentieth of what a page loads, is left out of the declarations and comes with the pane.
 */
export default async function (source) {
  return this.getOptions().all ? allWords(this) : withoutWords(source);
}
