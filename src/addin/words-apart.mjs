import path from 'node:path';
import { parse } from 'acorn';
import { simple } from 'acorn-walk';
import { builtModule } from './built-module.mjs';

/** What declares a function, and the properties of it that no calculation reads. */
const DECLARES = /^(value|worked|rows|table)Function$/;
const WORDS = { family: '""', summary: '""', examples: '[]' };
/** What declares a parameter: its kind, then its words. */
const PARAMETER = /^(required|optional)$/;

/** Leaves out of declarations what only a reader wants. */
function withoutWords(source) {
  const left = [];
  simple(parse(source, { ecmaVersion: 'latest', sourceType: 'module' }), {
    CallExpression({ callee, arguments: given }) {
      if (callee.type !== 'Identifier') return;
      if (PARAMETER.test(callee.name)) for (const words of given.slice(1)) left.push([words, '""']);
      if (!DECLARES.test(callee.name) || given[0]?.type !== 'ObjectExpression') return;
      for (const { key, value } of given[0].properties) if (WORDS[key?.name]) left.push([value, WORDS[key.name]]);
    },
  });
  left.sort(([a], [b]) => b.start - a.start);
  return left.reduce((text, [{ start, end }, as]) => text.slice(0, start) + as + text.slice(end), source);
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
