"""Cells of the program's documents, read and written for the pane and for BURN.WHY."""

from com.sun.star.lang import Locale
from com.sun.star.table.CellContentType import FORMULA
from com.sun.star.table.CellHoriJustify import CENTER, LEFT, RIGHT
from rodsheet_values import error_name

# com.sun.star.sheet.AddressConvention: references as `Sheet!A1`, which the pane reads.
XL_A1 = 1
# A range of so many rows or columns ends with the last filled one.
MANY_ROWS = 20000
MANY_COLUMNS = 500
# com.sun.star.sheet.CellFlags.FORMULA
ONLY_FORMULAS = 16
# So many formulas of ours are read for the pane; each takes a fifth of a millisecond.
MANY_FORMULAS = 5000


class Refused(Exception):
    """Says in plain words why something was not done."""


class SheetCell:
    """One cell with its document."""

    def __init__(self, document, cell):
        self.document = document
        self.cell = cell
        self.sheet = cell.getSpreadsheet()

    def described(self):
        """As the pane's port has a selected cell; the formula still has the program's separators."""
        place = self.cell.getCellAddress()
        told = {
            "sheet": self.sheet.Name,
            "address": address(place.Column, place.Row),
            "formula": "",
            "value": values(self.cell)[0][0],
        }
        cursor = self.sheet.createCursorByRange(self.cell)
        cursor.collapseToCurrentArray()
        if not cursor.getArrayFormula():
            if self.cell.Type == FORMULA:
                told["formula"] = self.printed(self.cell.getTokens(), place)
            return told
        first = cursor.getRangeAddress()
        row, column = place.Row - first.StartRow, place.Column - first.StartColumn
        # Written as seen from the cell that holds it.
        start = self.sheet.getCellByPosition(first.StartColumn, first.StartRow).getCellAddress()
        formula = self.printed(cursor.getArrayTokens(), start)
        if row == column == 0:
            told["formula"] = formula
        else:
            told["spill"] = {
                "from": address(start.Column, start.Row),
                "formula": formula,
                "row": row,
                "column": column,
            }
        return told

    def as_if(self, formula):
        """The same of a formula that is written as the user types it, or as FORMULA gives it, as if it stood in the cell."""
        place = self.cell.getCellAddress()
        parser = self.document.createInstance("com.sun.star.sheet.FormulaParser")
        tokens = parser.parseFormula(formula.strip().strip("{}").lstrip("="), place)
        return {
            "sheet": self.sheet.Name,
            "address": address(place.Column, place.Row),
            "formula": self.printed(tokens, place),
            "value": None,
        }

    def printed(self, tokens, place):
        parser = self.document.createInstance("com.sun.star.sheet.FormulaParser")
        parser.CompileEnglish = True
        parser.FormulaConvention = XL_A1
        return "=" + parser.printFormula(tokens, place)

    def read(self, reference, sheet_name, _address):
        return read(self.document, reference, sheet_name)


def read(document, reference, sheet_name):
    """Values of a reference as the pane writes it: cells, whole columns or rows, another sheet, a name."""
    sheet = sheet_named(document, sheet_name)
    name, mark, inside = reference.strip().rpartition("!")
    if mark:
        sheet = sheet_named(document, name.strip("'").replace("''", "'"))
    return values(used_part(range_named(document, sheet, inside)))


def our_formulas(document):
    """The cells with a function of ours, as the pane's port has them; of an array the first. Others are passed over."""
    found = []
    for sheet in document.Sheets:
        arrays = []
        for area in sheet.queryContentCells(ONLY_FORMULAS):
            at = area.getRangeAddress()
            for row, line in enumerate(area.getFormulaArray()):
                for column, formula in enumerate(line):
                    if "BURN" not in formula.upper():
                        continue
                    place = (at.StartRow + row, at.StartColumn + column)
                    if any(top <= place[0] <= bottom and left <= place[1] <= right for top, left, bottom, right in arrays):
                        continue
                    if len(found) >= MANY_FORMULAS:
                        raise Refused("the workbook has more than %d formulas of this kind" % MANY_FORMULAS)
                    cell = sheet.getCellByPosition(place[1], place[0])
                    if formula.startswith("{"):
                        cursor = sheet.createCursorByRange(cell)
                        cursor.collapseToCurrentArray()
                        all_of_it = cursor.getRangeAddress()
                        arrays.append((all_of_it.StartRow, all_of_it.StartColumn, all_of_it.EndRow, all_of_it.EndColumn))
                        cell = sheet.getCellByPosition(all_of_it.StartColumn, all_of_it.StartRow)
                    found.append(SheetCell(document, cell).described())
    return found


def write_cells(document, sheet_name, cells):
    """Writes values, all or none: what a formula gives is not written over."""
    sheet = sheet_named(document, sheet_name)
    for told in cells:
        if range_named(document, sheet, told["address"]).getCellByPosition(0, 0).Type == FORMULA:
            raise Refused("%s %s is filled by a formula" % (sheet_name, told["address"]))
    for told in cells:
        cell = range_named(document, sheet, told["address"]).getCellByPosition(0, 0)
        if isinstance(told["value"], str):
            cell.setString(told["value"])
        else:
            cell.setValue(told["value"])


def sheet_named(document, name):
    if not document.Sheets.hasByName(name):
        raise Refused("there is no sheet %s" % name)
    return document.Sheets.getByName(name)


def range_named(document, sheet, reference):
    for names in (sheet.NamedRanges, document.NamedRanges, document.DatabaseRanges):
        if names.hasByName(reference):
            found = names.getByName(reference).getReferredCells()
            if found is None:
                raise Refused("the name %s stands for no cells" % reference)
            return found
    try:
        return sheet.getCellRangeByName(reference)
    except Exception:
        raise Refused("there is no such range") from None


def used_part(cells):
    """The range without the rows and columns beyond the last filled ones, where it is long."""
    at = cells.getRangeAddress()
    cursor = cells.getSpreadsheet().createCursor()
    cursor.gotoEndOfUsedArea(False)
    last = cursor.getRangeAddress()
    rows, columns = at.EndRow - at.StartRow, at.EndColumn - at.StartColumn
    if rows >= MANY_ROWS:
        rows = max(0, min(rows, last.EndRow - at.StartRow))
    if columns >= MANY_COLUMNS:
        columns = max(0, min(columns, last.EndColumn - at.StartColumn))
    return cells.getCellRangeByPosition(0, 0, columns, rows)


def values(cells):
    """Rows of what a range holds. Its own way to text shows "..." while something is being calculated."""
    return [
        [
            {"error": error_name(cells.getCellByPosition(column, row).getError()), "message": ""}
            if cell is None
            else cell or None
            if isinstance(cell, str)
            else cell
            for column, cell in enumerate(line)
        ]
        for row, line in enumerate(cells.getDataArray())
    ]


def address(column, row):
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return "%s%d" % (letters, row + 1)


def put_formula(controller, formula, rows, columns):
    """Puts a formula in the selected cell, as an array over so many cells where its result is one."""
    first = active_cell(controller)
    at = first.getCellAddress()
    sheet = first.getSpreadsheet()
    if rows == columns == 1:
        first.setFormula(formula)
        return
    area = sheet.getCellRangeByPosition(at.Column, at.Row, at.Column + columns - 1, at.Row + rows - 1)
    for row, line in enumerate(area.getDataArray()):
        for column, cell in enumerate(line):
            if cell != "" and (row, column) != (0, 0):
                raise Refused(
                    "the result takes %d rows and %d columns, and %s is not blank"
                    % (rows, columns, address(at.Column + column, at.Row + row))
                )
    first.setString("")
    area.setArrayFormula(formula)


def add_sheet(controller, wanted, rows):
    """A new sheet with these rows from A1, shown; a taken name gets a number. Gives the name."""
    document = controller.getModel()
    taken = {name.lower() for name in document.Sheets.ElementNames}
    name, number = wanted, 2
    while name.lower() in taken:
        name, number = "%s %d" % (wanted, number), number + 1
    document.Sheets.insertNewByName(name, document.Sheets.Count)
    sheet = document.Sheets.getByName(name)
    width = max(len(row) for row in rows)
    filled = tuple(tuple(written(cell) for cell in row) + ("",) * (width - len(row)) for row in rows)
    area = sheet.getCellRangeByPosition(0, 0, width - 1, len(rows) - 1)
    area.setDataArray(filled)
    # com.sun.star.awt.FontWeight.BOLD
    area.getCellRangeByPosition(0, 0, width - 1, 0).CharWeight = 150.0
    area.Columns.OptimalWidth = True
    controller.setActiveSheet(sheet)
    controller.freezeAtPosition(0, 1)
    return name


# com.sun.star.table.CellVertJustify2.TOP and CENTER
VERTICAL = {"top": 1, "center": 2}
HORIZONTAL = {"left": LEFT, "center": CENTER, "right": RIGHT}
# Hundredths of a millimetre in a pixel of 1/96 in.
PIXEL = 2540 / 96
# A heading in this row or farther down would take the sheet's room if it stayed in sight.
LAST_FROZEN = 12


def format_table(controller, table):
    """Gives a table its number formats, widths and the look of its headings; columns grow and never shrink."""
    document = controller.getModel()
    sheet = sheet_named(document, table["sheet"])
    place = range_named(document, sheet, table["address"]).getRangeAddress()
    top, left, rows = place.StartRow, place.StartColumn, table["rows"]
    look = table["look"]
    heads = 1 if look["headed"] else 0
    last = left + len(look["columns"]) - 1
    for number, cells in enumerate(look["columns"]):
        column = sheet.Columns.getByIndex(left + number)
        column.Width = max(column.Width, round(cells["width"] * PIXEL))
        if rows > heads:
            at = left + number
            give_look(document, sheet.getCellRangeByPosition(at, top + heads, at, top + rows - 1), cells)
    if heads:
        give_look(document, sheet.getCellRangeByPosition(left, top, last, top), look["heading"])
    sheet.getCellRangeByPosition(left, top, last, top + rows - 1).Rows.OptimalHeight = True
    if heads and top < LAST_FROZEN and not controller.hasFrozenPanes():
        if controller.getActiveSheet().Name == sheet.Name:
            controller.freezeAtPosition(0, top + 1)


def give_look(document, cells, look):
    if "format" in look:
        formats, english = document.NumberFormats, Locale("en", "US", "")
        key = formats.queryKey(look["format"], english, False)
        cells.NumberFormat = formats.addNew(look["format"], english) if key == -1 else key
    if "align" in look:
        cells.HoriJustify = HORIZONTAL[look["align"]]
    if "vertical" in look:
        cells.VertJustify = VERTICAL[look["vertical"]]
    if "wrap" in look:
        cells.IsTextWrapped = look["wrap"]
    if look.get("bold"):
        # com.sun.star.awt.FontWeight.BOLD
        cells.CharWeight = 150.0
    if "background" in look:
        cells.CellBackColor = int(look["background"][1:], 16)


def written(cell):
    if cell is None:
        return ""
    if isinstance(cell, dict):
        return cell["error"]
    return float(cell) if isinstance(cell, (bool, int)) else cell


def active_cell(controller):
    """The selected cell, of a selected range the first; what is selected may be a drawing, and then it is none."""
    selection = controller.getSelection()
    if hasattr(selection, "getRangeAddresses"):
        selection = selection.getByIndex(0) if selection.getCount() else None
    if selection is None or not hasattr(selection, "getCellByPosition"):
        return None
    return selection.getCellByPosition(0, 0)
