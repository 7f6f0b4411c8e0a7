/**
 * Takes out of functions.js what only other readers of the declarations want, by folder and name of the property:
 * texts of help (functions.json and the pane have them), what to do about a caution (the pane and functions-further.js
 * have it), and the replayable formulas of steps (the tests have them). A test compares the bundle with the source.
 */
import ts from 'typescript';

const HELP = ['summary', 'example', 'examples', 'monotone'];
const DROPPED = [
  [/\/src\/catalogue\/[^/]+\.ts$/, [...HELP, 'expression']],
  [/\/src\/core\/operations\/[^/]+\.ts$/, [...HELP, 'expression']],
  [/\/src\/core\/safety\/cautions-[^/]+\.ts$/, ['action', 'clause', 'also']],
  [/\/src\/core\//, ['expression']],
];

export default function lean(source) {
  const names = DROPPED.find(([files]) => files.test(this.resourcePath))?.[1];
  if (!names || !names.some((name) => source.includes(`${name}:`))) return source;
  const file = ts.createSourceFile(this.resourcePath, source, ts.ScriptTarget.ES2022, true);
  const { transformed } = ts.transform(file, [without(names)]);
  return ts.createPrinter().printFile(transformed[0]);
}

/** Drops properties of these names from object literals; types and everything else stay. */
function without(names) {
  const dropped = (p) => ts.isPropertyAssignment(p) && ts.isIdentifier(p.name) && names.includes(p.name.text);
  return (context) => (root) => {
    const visit = (node) => {
      const kept = ts.isObjectLiteralExpression(node)
        ? ts.factory.updateObjectLiteralExpression(
            node,
            node.properties.filter((p) => !dropped(p)),
          )
        : node;
      return ts.visitEachChild(kept, visit, context);
    };
    return ts.visitNode(root, visit);
  };
}
