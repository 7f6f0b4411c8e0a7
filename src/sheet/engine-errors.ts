/** What the engine's own errors mean, where nothing more is known. */
export const engineErrors: Readonly<Record<string, string>> = {
  '#NULL!': 'these ranges have no cell in common',
  '#DIV/0!': 'division by zero or by a blank cell',
  '#VALUE!': 'a value is of the wrong kind for the formula',
  '#REF!': 'the formula refers to a cell that does not exist',
  '#NAME?': 'the formula uses a name that is not known',
  '#NUM!': 'the result is no number, or too large a one',
  '#N/A': 'nothing was found, or a function got the wrong number of arguments',
  '#SPILL!': 'the result needs more cells than are free beside and below the formula',
  '#CALC!': 'the result is empty',
  '#CYCLE!': 'circular reference',
  '#ERROR!': 'the formula cannot be read',
};
