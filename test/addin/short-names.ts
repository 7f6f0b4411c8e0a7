/**
 * Which names of properties the build may shorten (`src/addin/short-names.mjs`), by the types of the sources: those that nobody asks
 * for by a text, and that no object has which the host, the page, a package or a script of another build reads or makes.
 *
 * `npx tsx test/addin/short-names.ts` writes them down anew.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import ts from 'typescript';

const ROOT = path.join(import.meta.dirname, '../..');
const LIST = path.join(ROOT, 'src/addin/short-names.json');
/** What the scripts of the add-in are made of. */
const OF_THE_SCRIPTS = /\/src\/(core|catalogue|sheet|formula|files|check|pane|addin)\/.*\.tsx?$/;
/** Declarations of the language, the browser, the host and the package that draws the pane. */
const OF_OTHERS = /\/lib\.[\w.]+\.d\.ts$|\/office-js\/|\/custom-functions-runtime\/|\/preact\//;
/** A name this short stays as it is: short names may not be one that stands anywhere. */
const SHORTEST = 3;

export const readShortNames = (): readonly string[] => JSON.parse(readFileSync(LIST, 'utf8')) as readonly string[];

/** The names of all properties in the sources, and of those that must stay as they are why, with a place. */
export function propertyNames(extra: Readonly<Record<string, string>> = {}): {
  readonly all: ReadonlySet<string>;
  readonly fixed: ReadonlyMap<string, string>;
} {
  const program = programOf(extra);
  const checker = program.getTypeChecker();
  const all = new Set<string>();
  const fixed = new Map<string, string>();
  const fix = (name: string, why: string, at: ts.Node): void => {
    if (!fixed.has(name)) fixed.set(name, `${name} ${why} (${placeOf(at)})`);
  };
  const isOurs = ({ declarations = [] }: ts.Symbol): boolean =>
    declarations.length > 0 && declarations.every((d) => OF_THE_SCRIPTS.test(d.getSourceFile().fileName));
  const parts = (type: ts.Type): readonly ts.Type[] =>
    type.isUnionOrIntersection() ? type.types.flatMap(parts) : [type];
  const isRecord = (type: ts.Type): boolean =>
    parts(type).some((each) =>
      checker
        .getIndexInfosOfType(checker.getApparentType(each))
        .some(({ keyType }) => keyType.flags & ts.TypeFlags.String),
    );
  /** All names of a type, since they are read as texts. */
  const fixAll = (type: ts.Type, why: string, at: ts.Node): void => {
    for (const each of parts(type)) {
      const apparent = checker.getApparentType(each);
      if (checker.isArrayType(apparent) || checker.isTupleType(apparent)) continue;
      for (const property of apparent.getProperties()) if (isOurs(property)) fix(property.name, why, at);
    }
  };
  /** Whether a call that it stands in takes for a record what it is given, with its names kept for the types alone. */
  const isForRecord = (node: ts.Node): boolean => {
    for (let at: ts.Node = node; !ts.isSourceFile(at); at = at.parent) {
      if (!ts.isCallExpression(at) && !ts.isNewExpression(at)) continue;
      const called = checker.getResolvedSignature(at)?.getDeclaration();
      const kept = ts.isFunctionLike(called) ? (called.typeParameters ?? []) : [];
      if (kept.some(({ constraint }) => constraint && isRecord(checker.getTypeFromTypeNode(constraint)))) return true;
    }
    return false;
  };
  /** Whether no type names it but that of the literal it stands in. */
  const isOfLiteral = ({ declarations = [] }: ts.Symbol): boolean =>
    declarations.every((d) => ts.isObjectLiteralExpression(d.parent));
  const told = new Set<ts.Type>();
  /** All names in a message, which another build may read. */
  const fixMessage = (type: ts.Type, at: ts.Node): void => {
    for (const each of parts(type)) {
      if (told.has(each) || !(each.flags & ts.TypeFlags.Object)) continue;
      told.add(each);
      for (const argument of checker.getTypeArguments(each as ts.TypeReference)) fixMessage(argument, at);
      for (const property of each.getProperties().filter(isOurs)) {
        fix(property.name, 'goes into a message', at);
        fixMessage(checker.getTypeOfSymbolAtLocation(property, at), at);
      }
    }
  };
  /** A name that is written: it stays where it is not one of ours. */
  const use = (name: string, symbols: readonly (ts.Symbol | undefined)[], at: ts.Node): void => {
    all.add(name);
    if (!symbols.every((each) => each && isOurs(each))) fix(name, 'is not declared as a property of ours', at);
  };
  const useInLiteral = (literal: ts.ObjectLiteralExpression): void => {
    const wanted = checker.getContextualType(literal);
    for (const property of literal.properties) {
      if (ts.isSpreadAssignment(property)) {
        if (wanted && isRecord(wanted))
          fixAll(checker.getTypeAtLocation(property.expression), 'goes into a record', property);
      } else if (ts.isStringLiteral(property.name)) fix(property.name.text, 'is a text', property);
      else if (ts.isIdentifier(property.name)) {
        const name = property.name.text;
        const declared = wanted
          ? parts(wanted)
              .map((each) => each.getProperty(name))
              .filter((each) => each !== undefined)
          : [];
        use(name, declared, property);
        if (wanted && declared.length === 0 && isRecord(wanted)) fix(name, 'is a key of a record', property);
        if (declared.length > 0 && declared.every(isOfLiteral) && isForRecord(literal))
          fix(name, 'is a key of a record', property);
      }
    }
  };
  const useInPattern = (element: ts.BindingElement): void => {
    const name = element.propertyName ?? element.name;
    if (!ts.isObjectBindingPattern(element.parent) || element.dotDotDotToken) return;
    if (ts.isStringLiteral(name)) fix(name.text, 'is a text', element);
    if (ts.isIdentifier(name))
      use(name.text, [checker.getTypeAtLocation(element.parent).getProperty(name.text)], element);
  };
  const useInCall = (call: ts.CallExpression): void => {
    const called = call.expression.getText();
    if (/^Object\.(keys|entries|getOwn\w+|hasOwn|fromEntries|definePropert\w+)$|^Reflect\./.test(called))
      for (const argument of call.arguments) fixAll(checker.getTypeAtLocation(argument), `is read by ${called}`, call);
    if (/\bpostMessage$/.test(called))
      for (const argument of call.arguments) fixMessage(checker.getTypeAtLocation(argument), call);
  };
  const useAsRecord = (expression: ts.Expression): void => {
    const wanted = checker.getContextualType(expression);
    if (wanted && isRecord(wanted)) fixAll(checker.getTypeAtLocation(expression), 'is given as a record', expression);
    const named = wanted
      ? parts(wanted)
          .flatMap((each) => each.getProperties())
          .filter((each) => isOurs(each) && isOfLiteral(each))
      : [];
    if (named.length > 0 && isForRecord(expression))
      for (const { name } of named) fix(name, 'is given as a record', expression);
  };
  const visit = (node: ts.Node): void => {
    if (ts.isPropertyAccessExpression(node)) {
      const symbol = checker.getSymbolAtLocation(node.name);
      if (!symbol || !(symbol.flags & (ts.SymbolFlags.Alias | ts.SymbolFlags.Module)))
        use(node.name.text, [symbol], node);
    }
    if (ts.isElementAccessExpression(node)) {
      const by = node.argumentExpression;
      if (ts.isStringLiteralLike(by)) fix(by.text, 'is a text', node);
      if (!(checker.getTypeAtLocation(by).flags & (ts.TypeFlags.NumberLike | ts.TypeFlags.ESSymbolLike)))
        fixAll(checker.getTypeAtLocation(node.expression), 'is asked for by a text', node);
    }
    if (ts.isForInStatement(node))
      fixAll(checker.getTypeAtLocation(node.expression), 'is gone through by its name', node);
    if (ts.isBinaryExpression(node) && node.operatorToken.kind === ts.SyntaxKind.InKeyword) {
      if (ts.isStringLiteralLike(node.left)) fix(node.left.text, 'is looked for by a text', node);
      else fixAll(checker.getTypeAtLocation(node.right), 'is looked for by a text', node);
    }
    if (ts.isTypeOperatorNode(node) && node.operator === ts.SyntaxKind.KeyOfKeyword)
      fixAll(checker.getTypeFromTypeNode(node.type), 'is a key', node);
    if (ts.isJsxAttribute(node)) {
      const name = node.name.getText();
      use(name, [checker.getContextualType(node.parent)?.getProperty(name)], node);
    }
    if (ts.isJsxSpreadAttribute(node)) fixAll(checker.getTypeAtLocation(node.expression), 'goes to an element', node);
    if (ts.isAsExpression(node) && isRecord(checker.getTypeAtLocation(node)))
      fixAll(checker.getTypeAtLocation(node.expression), 'is taken for a record', node);
    if (ts.isObjectLiteralExpression(node)) useInLiteral(node);
    else if (ts.isBindingElement(node)) useInPattern(node);
    else if (ts.isExpression(node) && !ts.isPropertyAccessExpression(node.parent)) useAsRecord(node);
    if (ts.isCallExpression(node)) useInCall(node);
    ts.forEachChild(node, visit);
  };
  const declaredByOthers = (node: ts.Node): void => {
    if (
      (ts.isTypeElement(node) || ts.isClassElement(node) || ts.isEnumMember(node)) &&
      node.name &&
      'text' in node.name
    )
      fix(node.name.text, 'is a name of others', node);
    ts.forEachChild(node, declaredByOthers);
  };
  for (const file of program.getSourceFiles()) {
    if (OF_OTHERS.test(file.fileName)) declaredByOthers(file);
    else if (OF_THE_SCRIPTS.test(file.fileName)) visit(file);
  }
  return { all, fixed };
}

/** The sources, with some files more that stand nowhere. */
function programOf(extra: Readonly<Record<string, string>>): ts.Program {
  const read = ts.getParsedCommandLineOfConfigFile(
    path.join(ROOT, 'tsconfig.json'),
    {},
    { ...ts.sys, onUnRecoverableConfigFileDiagnostic: ({ messageText }) => expectNone(messageText) },
  );
  if (!read) throw new Error('no tsconfig.json');
  const files = ts.createCompilerHost(read.options);
  const texts = new Map(Object.entries(extra).map(([name, text]) => [path.join(ROOT, name), text]));
  const host: ts.CompilerHost = {
    ...files,
    fileExists: (name) => texts.has(name) || files.fileExists(name),
    readFile: (name) => texts.get(name) ?? files.readFile(name),
    getSourceFile: (name, options) => {
      const text = texts.get(name);
      return text === undefined ? files.getSourceFile(name, options) : ts.createSourceFile(name, text, options, true);
    },
  };
  const names = read.fileNames.filter((name) => OF_THE_SCRIPTS.test(name));
  return ts.createProgram({ rootNames: [...names, ...texts.keys()], options: read.options, host });
}

function expectNone(fault: string | ts.DiagnosticMessageChain): never {
  throw new Error(ts.flattenDiagnosticMessageText(fault, '\n'));
}

function placeOf(node: ts.Node): string {
  const file = node.getSourceFile();
  return `${path.relative(ROOT, file.fileName)}:${file.getLineAndCharacterOfPosition(node.getStart()).line + 1}`;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const { all, fixed } = propertyNames();
  const names = [...all].filter((name) => name.length >= SHORTEST && !fixed.has(name)).sort();
  writeFileSync(LIST, `${JSON.stringify(names, null, 2)}\n`);
  console.log(`${names.length} names of ${all.size}`);
}
