"""Values between the program and the process: what a cell holds, both ways.

The program carries an error inside a number: a double that is no number and whose low half is the error's code. Handed
back so, it is an error to ISERROR and IFERROR, in a single cell and inside an array alike.
"""

import math
import struct

# formula::FormulaError of the program; what it shows for each.
CODES = {
    "#NULL!": 521,
    "#DIV/0!": 532,
    "#VALUE!": 519,
    "#REF!": 524,
    "#NAME?": 525,
    "#NUM!": 503,
    "#N/A": 32767,
}
NAMES = {code: name for name, code in CODES.items()}
NOT_A_NUMBER = 0x7FF80000
# A list of so many rows is handed over as it stands; only a longer one is searched for its end.
MANY_ROWS = 20000


def error_number(name):
    return struct.unpack("<d", struct.pack("<II", CODES.get(name, CODES["#VALUE!"]), NOT_A_NUMBER))[0]


ERRORS = {name: error_number(name) for name in CODES}


def error_name(code):
    return NAMES.get(code, "Err:%d" % code)


def toward_process(values, zero_is_blank):
    """The arguments of a call: None where one was left out, one cell, or rows of cells."""
    longest = max((len(v) for v in values if isinstance(v, tuple)), default=0)
    # Whole columns end with the last row that is filled in any of them.
    last = filled_rows(values, longest) if longest > MANY_ROWS else longest
    return [argument(value, blank, last) for value, blank in zip(values, zero_is_blank)]


def filled_rows(values, longest):
    columns = [v for v in values if isinstance(v, tuple) and len(v) == longest]
    last = longest
    while last > 1 and all(cell == "" for column in columns for cell in column[last - 1]):
        last -= 1
    return last


def argument(value, zero_is_blank, last):
    if isinstance(value, tuple):
        return [[cell_for_process(cell) for cell in row] for row in value[:last]]
    # A single blank cell arrives as 0, and cannot be told from a 0 that was typed.
    if value == "" or (zero_is_blank and value == 0):
        return [[None]]
    return cell_for_process(value)


def cell_for_process(cell):
    if isinstance(cell, float) and not math.isfinite(cell):
        code = struct.unpack("<II", struct.pack("<d", cell))[0] if math.isnan(cell) else CODES["#NUM!"]
        return {"error": error_name(code), "message": ""}
    return None if cell == "" else cell


def rows_for_program(answer):
    """The result of a call: rows of numbers, texts and truths, and the places of its errors."""
    if "packed" in answer:
        return unpacked(answer)
    rows = answer["rows"]
    for row, column, error in answer["errors"]:
        rows[int(row)][int(column)] = ERRORS.get(error, ERRORS["#VALUE!"])
    return tuple(map(tuple, rows))


def packed_size(answer):
    rows, columns = answer["packed"]
    return 8 * rows * columns + 8 * answer["others"]


def unpacked(answer):
    """Rows of a long result, which comes column by column: numbers, then the places of all else and what stands there."""
    rows, columns = answer["packed"]
    others = answer["others"]
    values = answer["values"] + [ERRORS.get(error, ERRORS["#VALUE!"]) for error in answer["errors"]]
    form = "<%dd%dI" % (rows * columns, 2 * others)
    held = list(struct.unpack(form, answer["bytes"]))
    first = rows * columns
    for place, which in zip(held[first : first + others], held[first + others :]):
        held[place] = values[which]
    return tuple(zip(*(held[at : at + rows] for at in range(0, first, rows))))
