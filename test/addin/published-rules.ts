/**
 * The host's published rules for functions.json, written down apart from the code that writes it.
 *
 * [json] learn.microsoft.com/office/dev/add-ins/excel/custom-functions-json, 27 October 2025: the metadata reference.
 * [naming] learn.microsoft.com/office/dev/add-ins/excel/custom-functions-naming, 22 October 2025.
 * [tags] learn.microsoft.com/office/dev/add-ins/excel/custom-functions-json-autogeneration: at most 128 characters; the
 *   vendor's generator (custom-functions-metadata, parseTree.ts) refuses a longer id or name, and two alike but for case.
 * [size] github.com/OfficeDev/office-js/issues/4808 and Excel-Custom-Functions/issues/422: a desktop host drops a file over 1 MB.
 * [texts] github.com/Excel-DNA/IntelliSense/issues/72: the argument help is cut past 255 characters; github.com/xlwings/
 *   xlwings/issues/1489: the function wizard fails where names of arguments and their number together pass 254.
 * [macro] [MS-OFFMACRO] v20160914, 2.2.6: the functions of macro sheets. Its commands are left out: they take no part in a cell.
 * The vendor names a schema, developer.microsoft.com/json-schemas/office-js/custom-functions.schema.json; no package has it.
 */
type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
type Check = (value: Json | undefined) => string | undefined;

const is =
  (type: string): Check =>
  (value) =>
    typeof value === type ? undefined : `must be a ${type}`;
const among =
  (...words: readonly string[]): Check =>
  (value) =>
    typeof value === 'string' && words.includes(value) ? undefined : `must be one of ${words.join(', ')}`;
const BOOLEAN = is('boolean');
const TYPE = among('boolean', 'number', 'string', 'any');
const DIMENSIONALITY = among('scalar', 'matrix');

/** Every property the reference knows; those with a star are required. */
const TOP = {
  allowCustomDataForDataTypeAny: BOOLEAN,
  allowErrorForDataTypeAny: BOOLEAN,
  '*functions': list,
  enums: list,
  $schema: is('string'),
};
const FUNCTION = {
  description: text(255),
  helpUrl: address,
  '*id': id,
  '*name': name,
  options: is('object'),
  '*parameters': list,
  '*result': is('object'),
};
const OPTIONS = Object.fromEntries(
  [
    'cancelable',
    'capturesCallingObject',
    'excludeFromAutoComplete',
    'linkedEntityLoadService',
    'requiresAddress',
    'requiresParameterAddresses',
    'requiresStreamAddress',
    'requiresStreamParameterAddresses',
    'stream',
    'volatile',
  ].map((option) => [option, BOOLEAN]),
);
const PARAMETER = {
  description: text(255),
  dimensionality: DIMENSIONALITY,
  '*name': parameterName,
  type: TYPE,
  cellValueType: is('string'),
  customEnumId: is('string'),
  optional: BOOLEAN,
  repeating: BOOLEAN,
};
const RESULT = { dimensionality: DIMENSIONALITY, type: TYPE };

/** Options that may not stand together. [json] */
const APART = [
  ['stream', 'cancelable'],
  ['stream', 'requiresAddress'],
  ['stream', 'volatile'],
  ['excludeFromAutoComplete', 'linkedEntityLoadService'],
];
const LARGEST = 1_000_000;

const MACRO_FUNCTIONS =
  `ABSREF ACTIVE.CELL CALL CALLER EVALUATE GET.DOCUMENT INPUT LAST.ERROR SCENARIO.GET SELECTION TEXTREF VIEW.GET ADD.BAR
  ADD.COMMAND ADD.MENU ADD.TOOLBAR APP.TITLE ARGUMENT BREAK CANCEL.KEY CHECK.COMMAND CREATE.OBJECT CUSTOM.REPEAT CUSTOM.UNDO DELETE.BAR
  DELETE.COMMAND DELETE.MENU DELETE.TOOLBAR DEREF DIALOG.BOX DIRECTORY DOCUMENTS ECHO ELSE ELSE.IF ENABLE.COMMAND ENABLE.TOOL END.IF ERROR EXEC
  EXECUTE FCLOSE FILES FOPEN FOR FOR.CELL FORMULA.CONVERT FPOS FREAD FREADLN FSIZE FWRITE FWRITELN GET.BAR GET.CELL GET.CHART.ITEM GET.DEF
  GET.FORMULA GET.LINK.INFO GET.MOVIE GET.NAME GET.NOTE GET.OBJECT GET.TOOL GET.TOOLBAR GET.WINDOW GET.WORKBOOK GET.WORKSPACE GOTO GROUP HALT HELP
  INITIATE LINKS MOVIE.COMMAND NAMES NEXT NOTE OPEN.DIALOG OPTIONS.LISTS.GET PAUSE POKE PRESS.TOOL REFTEXT REGISTER REGISTER.ID RELREF
  RENAME.COMMAND REQUEST RESET.TOOLBAR RESTART RESULT RESUME RETURN RUN SAVE.DIALOG SAVE.TOOLBAR SET.NAME SET.VALUE SHOW.BAR SPELLING.CHECK STEP
  TERMINATE TEXT.BOX UNREGISTER VOLATILE WHILE WINDOW.TITLE WINDOWS`.split(/\s+/);

/** What of a functions.json the host would refuse, cut or misread; `builtIn` are the host's own functions in all its languages. */
export function brokenRules(file: string, builtIn: ReadonlySet<string>): readonly string[] {
  const json = JSON.parse(file) as Json;
  const faults: string[] = [];
  if (Buffer.byteLength(file) > LARGEST)
    faults.push(`the file has ${Buffer.byteLength(file)} bytes; a desktop host takes ${LARGEST}`); // [size]
  faults.push(...shape('file', json, TOP));
  // The vendor's own example has both; an older desktop version crashed on them.
  if (field(json, 'allowCustomDataForDataTypeAny') === true && field(json, 'allowErrorForDataTypeAny') === true)
    faults.push('file: both flags at once');
  const seen = new Set<string>();
  for (const f of array(field(json, 'functions'))) {
    const called = String(field(f, 'id'));
    const complain = (what: string): number => faults.push(`${called}: ${what}`);
    faults.push(
      ...shape(called, f, FUNCTION),
      ...shape(`${called} result`, field(f, 'result') ?? {}, RESULT),
      ...shape(`${called} options`, field(f, 'options') ?? {}, OPTIONS),
    );
    for (const key of ['id', 'name']) {
      const value = `${key} ${String(field(f, key)).toUpperCase()}`;
      if (seen.has(value)) complain(`${value} stands twice`);
      seen.add(value);
    }
    if (builtIn.has(String(field(f, 'name')).toUpperCase())) complain('is a function of the host'); // [naming]
    const options = field(f, 'options') ?? {};
    for (const pair of APART)
      if (pair.every((option) => field(options, option) === true)) complain(pair.join(' with '));
    if (
      field(options, 'requiresParameterAddresses') === true &&
      field(field(f, 'result') ?? {}, 'dimensionality') !== 'matrix'
    )
      complain('addresses of parameters want a matrix as result'); // [json]
    const parameters = array(field(f, 'parameters'));
    for (const p of parameters) {
      faults.push(...shape(`${called} ${String(field(p, 'name'))}`, p, PARAMETER));
      if (field(p, 'cellValueType') !== undefined && field(p, 'type') !== 'any') complain('cellValueType without any'); // [json]
    }
    const names = parameters.map((p) => String(field(p, 'name')));
    if (new Set(names.map((n) => n.toLowerCase())).size < names.length) complain('two parameters of one name');
    if (names.join('').length + names.length > 254)
      complain('names of parameters that the function wizard cannot show'); // [texts]
    const required = parameters.map((p) => field(p, 'optional') !== true && field(p, 'repeating') !== true);
    if (required.lastIndexOf(true) > required.indexOf(false) && required.includes(false))
      complain('a required parameter after an optional one');
  }
  return faults;
}

/** Whether an object has what it must and nothing else. */
function shape(what: string, value: Json, checks: Readonly<Record<string, Check>>): readonly string[] {
  const known = new Map(
    Object.entries(checks).map(([key, check]) => [key.replace('*', ''), { check, required: key.startsWith('*') }]),
  );
  const keys = typeof value === 'object' && value !== null ? Object.keys(value) : [];
  const faults = keys.filter((key) => !known.has(key)).map((key) => `${what}: ${key} is not in the reference`);
  for (const [key, { check, required }] of known) {
    const given = field(value, key);
    const fault = given === undefined ? (required ? 'is missing' : undefined) : check(given);
    if (fault !== undefined) faults.push(`${what}: ${key} ${fault}`);
  }
  return faults;
}

function field(value: Json | undefined, key: string): Json | undefined {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Readonly<Record<string, Json>>)[key]
    : undefined;
}

const array = (value: Json | undefined): readonly Json[] => (Array.isArray(value) ? (value as readonly Json[]) : []);

function list(value: Json | undefined): string | undefined {
  return Array.isArray(value) ? undefined : 'must be an array';
}

function text(most: number): Check {
  return (value) =>
    typeof value !== 'string' || value === ''
      ? 'must be a text'
      : value.length > most
        ? `has ${value.length} characters; ${most} are shown`
        : undefined;
}

/** A page that a host over https can open. */
function address(value: Json | undefined): string | undefined {
  return typeof value === 'string' && URL.canParse(value) && new URL(value).protocol === 'https:'
    ? undefined
    : 'must be an https address';
}

function id(value: Json | undefined): string | undefined {
  return typeof value === 'string' && /^[A-Z][A-Z0-9_.]{2,127}$/.test(value)
    ? name(value)
    : 'must be 3 to 128 of A-Z, 0-9, _ and . after a letter'; // [naming] [tags]
}

function name(value: Json | undefined): string | undefined {
  if (typeof value !== 'string' || !/^\p{L}[\p{L}\p{N}_.]{2,127}$/u.test(value))
    return 'must be 3 to 128 letters, digits, _ and . after a letter';
  if (/^[A-Z]{1,3}\d+$|^R\d*C\d*$/i.test(value)) return 'can be read as a cell';
  return MACRO_FUNCTIONS.includes(value.toUpperCase()) ? 'is a macro function' : undefined; // [macro]
}

/** Commas, brackets and quotes would be read as the formula's own in the argument help. */
function parameterName(value: Json | undefined): string | undefined {
  return typeof value === 'string' && /^[\p{L}\p{N}][\p{L}\p{N} _-]{0,63}$/u.test(value)
    ? undefined
    : 'must be 1 to 64 letters, digits and spaces';
}
