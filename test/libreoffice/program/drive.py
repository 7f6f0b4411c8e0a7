"""Drives LibreOffice for the tests: starts it with a profile of its own, then does what each line of JSON asks.

    drive.py PROFILE [--window]
"""

import json
import os
import subprocess
import sys
import time
import traceback
import uuid

import uno
from com.sun.star.beans import PropertyValue

FILTERS = {".ods": "calc8", ".xlsx": "Calc MS Excel 2007 XML", ".pdf": "calc_pdf_Export"}
PATIENCE = 90


def properties(**given):
    made = []
    for name, value in given.items():
        one = PropertyValue()
        one.Name, one.Value = name, value
        made.append(one)
    return tuple(made)


class Program:
    def __init__(self, profile, window):
        pipe = "rodsheet" + uuid.uuid4().hex
        options = ["--norestore", "--nologo"] + ([] if window else ["--headless"])
        # A session of its own, so that it ends with all that it started.
        self.child = subprocess.Popen(
            ["soffice", *options, "-env:UserInstallation=file://" + profile, "--accept=pipe,name=%s;urp;" % pipe],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        local = uno.getComponentContext()
        resolver = local.ServiceManager.createInstance("com.sun.star.bridge.UnoUrlResolver")
        until = time.monotonic() + PATIENCE
        while True:
            try:
                self.context = resolver.resolve("uno:pipe,name=%s;urp;StarOffice.ComponentContext" % pipe)
                break
            except Exception:
                if time.monotonic() > until or self.child.poll() is not None:
                    raise
                time.sleep(0.2)
        self.desktop = self.service("com.sun.star.frame.Desktop")
        self.hidden = not window
        self.documents = {}

    def service(self, name):
        return self.context.ServiceManager.createInstanceWithContext(name, self.context)

    def open(self, document, path=None):
        place = "private:factory/scalc" if path is None else "file://" + path
        self.documents[document] = self.desktop.loadComponentFromURL(
            place, "_blank", 0, properties(Hidden=self.hidden)
        )

    def sheet(self, document, name):
        sheets = self.documents[document].Sheets
        if name is None:
            return sheets.getByIndex(0)
        if not sheets.hasByName(name):
            sheets.insertNewByName(name, sheets.Count)
        return sheets.getByName(name)

    def fill(self, document, address, rows, sheet=None):
        """Constants from a cell on."""
        first = self.sheet(document, sheet).getCellRangeByName(address).getRangeAddress()
        area = self.sheet(document, sheet).getCellRangeByPosition(
            first.StartColumn, first.StartRow, first.StartColumn + len(rows[0]) - 1, first.StartRow + len(rows) - 1
        )
        area.setDataArray(tuple(tuple("" if c is None else float(c) if isinstance(c, int) else c for c in r) for r in rows))

    def formulas(self, document, formulas, sheet=None):
        """A formula, as typed by somebody with English settings, for each cell; an array formula for a range."""
        for address, formula in formulas.items():
            cells = self.sheet(document, sheet).getCellRangeByName(address)
            if ":" in address:
                cells.setArrayFormula(formula)
            else:
                cells.setFormula(formula)

    def read(self, document, address, sheet=None):
        """Each cell: what it holds, what it shows, its error and its formula."""
        cells = self.sheet(document, sheet).getCellRangeByName(address)
        at = cells.getRangeAddress()
        return [
            [self.cell(cells.getCellByPosition(c, r)) for c in range(at.EndColumn - at.StartColumn + 1)]
            for r in range(at.EndRow - at.StartRow + 1)
        ]

    def cell(self, cell):
        kind = cell.Type.value
        text = kind == "TEXT" or (kind == "FORMULA" and cell.FormulaResultType2 == 2)
        return {
            "value": None if kind == "EMPTY" else cell.String if text or cell.getError() else cell.Value,
            "shown": cell.String,
            "error": cell.getError(),
            "formula": cell.Formula,
        }

    def values(self, document, address, sheet=None):
        """What a range holds, in one go; null for an error."""
        return self.sheet(document, sheet).getCellRangeByName(address).getDataArray()

    def name(self, document, name, meaning):
        self.documents[document].NamedRanges.addNewByName(name, meaning, uno.createUnoStruct("com.sun.star.table.CellAddress"), 0)

    def recalculate(self, document):
        self.documents[document].calculateAll()

    def column(self, document, address, formula, rows, arguments):
        """Formulas down a column from a pattern, and the seconds until all are calculated."""
        texts = tuple((formula % tuple(arguments[i % len(arguments)]),) for i in range(rows))
        return self.timed(document, address, lambda cells: cells.setFormulaArray(texts))

    def array(self, document, address, formula):
        """An array formula, and the seconds until all its cells are calculated."""
        return self.timed(document, address, lambda cells: cells.setArrayFormula(formula))

    def timed(self, document, address, put):
        sheet = self.sheet(document, None)
        cells = sheet.getCellRangeByName(address)
        # Counted inside the program: to bring all of it over to here takes longer than to calculate it.
        count = self.sheet(document, "Count").getCellRangeByName("A1")
        started = time.perf_counter()
        put(cells)
        count.setFormula("=COUNTA($%s.%s)" % (sheet.Name, address))
        assert count.Value > 0
        return time.perf_counter() - started

    def save(self, document, path):
        self.documents[document].storeToURL(
            "file://" + path, properties(FilterName=FILTERS[os.path.splitext(path)[1]], Overwrite=True)
        )

    def close(self, document):
        self.documents.pop(document).close(True)

    def functions(self):
        """Names, help and arguments as the function wizard has them, of our functions."""
        found = self.service("com.sun.star.sheet.FunctionDescriptions")
        told = []
        for i in range(found.Count):
            one = {p.Name: p.Value for p in found.getByIndex(i)}
            if one["Name"].startswith("BURN."):
                told.append(
                    {
                        "name": one["Name"],
                        "description": one["Description"],
                        "category": one["Category"],
                        "arguments": [{"name": a.Name, "description": a.Description} for a in one["Arguments"] or ()],
                    }
                )
        return told

    def job(self, what):
        """As a menu entry does."""
        self.service("org.rodsheet.Job").trigger(what)

    def select(self, document, address, sheet=None):
        controller = self.documents[document].getCurrentController()
        controller.setActiveSheet(self.sheet(document, sheet))
        controller.select(self.sheet(document, sheet).getCellRangeByName(address))

    def children(self):
        """Process ids of the calculations that belong to this program."""
        listed = subprocess.run(["ps", "-eo", "pid,ppid,args"], capture_output=True, text=True).stdout.splitlines()
        parents = {}
        for line in listed[1:]:
            pid, parent, command = line.split(None, 2)
            parents[int(pid)] = (int(parent), command)

        def belongs(pid):
            while pid in parents:
                if pid == self.child.pid:
                    return True
                pid = parents[pid][0]
            return False

        return [pid for pid, (_, command) in parents.items() if "process.cjs" in command and belongs(pid)]

    def end(self):
        for document in self.documents.values():
            # Nobody is there to be asked whether it shall be saved.
            document.setModified(False)
        try:
            self.desktop.terminate()
        except Exception:
            pass
        return self.child.wait(timeout=PATIENCE)


def main():
    program = Program(sys.argv[1], "--window" in sys.argv)
    print(json.dumps({"ready": program.child.pid}), flush=True)
    for line in sys.stdin:
        asked = json.loads(line)
        try:
            answer = {"result": getattr(program, asked["do"])(**asked["with"])}
        except Exception as reason:
            answer = {"problem": "%s\n%s" % (reason, traceback.format_exc())}
        print(json.dumps(answer), flush=True)
    if program.child.poll() is None:
        program.end()


main()
