"""Brings functions to life that the other host stored in a workbook under a name of its own.

It writes `_xldudf_BURN_PIN_RODS` for BURN.PIN.RODS, which Calc takes for a name it does not know. Once a document is
loaded such formulas are written anew under the name that both programs show; nothing else in it is touched.
"""

import re
from contextlib import contextmanager

from com.sun.star.lang import IllegalArgumentException

STORED = re.compile(r"_xldudf_(BURN(?:_[A-Z0-9]+)+)(?=\()", re.IGNORECASE)
# com.sun.star.sheet.CellFlags.FORMULA
FORMULA = 16


def renamed(formula):
    return STORED.sub(lambda found: found.group(1).upper().replace("_", "."), formula)


def rename_stored(document):
    automatic = document.isAutomaticCalculationEnabled()
    document.enableAutomaticCalculation(False)
    try:
        for name in named_expressions(document):
            if STORED.search(name.Content):
                name.Content = renamed(name.Content)
        for sheet in document.Sheets:
            with unlocked(sheet):
                for area in list(sheet.queryContentCells(FORMULA)):
                    rename_cells(area)
    finally:
        document.enableAutomaticCalculation(automatic)


@contextmanager
def unlocked(sheet):
    """Takes the lock off a sheet that has no password, and puts it back; one with a password stays as it is."""
    locked = sheet.isProtected()
    if locked:
        try:
            sheet.unprotect("")
        except IllegalArgumentException:
            locked = False
    try:
        yield
    finally:
        if locked:
            sheet.protect("")


def named_expressions(document):
    for names in [document.NamedRanges, *(sheet.NamedRanges for sheet in document.Sheets)]:
        yield from (names.getByName(name) for name in names.ElementNames)


def rename_cells(area):
    for row, line in enumerate(area.getFormulaArray()):
        for column, stood in enumerate(line):
            if STORED.search(stood):
                rename_cell(area.getCellByPosition(column, row))


def rename_cell(cell):
    formula = cell.getFormula()
    if not STORED.search(formula):
        # Part of an array that has been renamed meanwhile.
        return
    if not formula.startswith("{"):
        cell.setFormula(renamed(formula))
        return
    array = cell.getSpreadsheet().createCursorByRange(cell)
    array.collapseToCurrentArray()
    # As seen from the first cell. The range itself would give it with separators that it does not take.
    first = array.getCellByPosition(0, 0).getFormula()
    array.setArrayFormula(renamed(first.strip("{}")))
