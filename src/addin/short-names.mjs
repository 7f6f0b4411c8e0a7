import { readFileSync } from 'node:fs';
import { parse } from 'acorn';
import { full } from 'acorn-walk';

/** Names of properties that nobody asks for by a text and nobody else reads: `test/addin/short-names.ts` finds them by their types. */
const NAMES = JSON.parse(readFileSync(new URL('short-names.json', import.meta.url), 'utf8'));
/** The commonest letters first. */
const LETTERS = 'etnrisoaclupdfmhgvbywkxjqzSTARCEPDMIBLNOFHVGWUKYXJQZ';
/** What properties the language itself knows by two letters. */
const OF_THE_LANGUAGE = [Object, Array, Promise, Symbol, Number, Math, {}, [], '', new Map(), () => 0];

/**
 * Scripts with short names in place of long ones, the same in each of them: names that stand far apart pack badly. A short name
 * begins as the long one does, since letters that follow each other often pack better too.
 */
export function withShortNames(scripts) {
  const found = Object.entries(scripts).map(([file, text]) => [file, text, propertiesOf(text)]);
  const counts = new Map();
  for (const [, , properties] of found)
    for (const { name } of properties) counts.set(name, (counts.get(name) ?? 0) + 1);
  const taken = new Set(counts.keys());
  const short = new Map();
  const common = NAMES.filter((name) => counts.has(name)).sort((a, b) => counts.get(b) - counts.get(a));
  for (const name of common) {
    const free = shortFor(name).find(
      (each) => !taken.has(each) && !OF_THE_LANGUAGE.some((known) => each in Object(known)),
    );
    if (free === undefined) continue;
    taken.add(free);
    short.set(name, free);
  }
  return Object.fromEntries(found.map(([file, text, properties]) => [file, renamed(text, properties, short)]));
}

const shortFor = (name) => [...name.slice(-1), ...name.slice(1), ...LETTERS].map((letter) => name[0] + letter);

/** Every name of a property in a script, with its place. */
function propertiesOf(text) {
  const properties = [];
  const add = ({ type, name, value, start, end }, shorthand = false) => {
    if (type === 'Identifier') properties.push({ name, start, end, shorthand });
    // What was written down by the build and not by hand may be a text.
    if (type === 'Literal' && typeof value === 'string') properties.push({ name: value, start, end, shorthand });
  };
  const addKey = ({ computed, key, shorthand }) => !computed && key && add(key, shorthand);
  full(parse(text, { ecmaVersion: 'latest' }), (node) => {
    if (node.type === 'MemberExpression' && !node.computed) add(node.property);
    if (/^(Property|MethodDefinition|PropertyDefinition)$/.test(node.type)) addKey(node);
    if (node.type === 'ObjectPattern') node.properties.forEach(addKey);
  });
  return properties.sort((a, b) => a.start - b.start);
}

function renamed(text, properties, short) {
  let from = 0;
  const parts = [];
  for (const { name, start, end, shorthand } of properties) {
    const to = short.get(name);
    if (to === undefined) continue;
    parts.push(text.slice(from, start), shorthand ? `${to}:${name}` : to);
    from = end;
  }
  return parts.join('') + text.slice(from);
}
