"""The one process that calculates for all cells: started at the first use, again after it failed, ended with the program.

A line of JSON goes out, a line comes back, with bytes behind it where the result is long. While it works out a reason the process may ask for cells in between; they
are read here and handed over before its answer comes.
"""

import json
import os
import shutil
import subprocess
import sys
import threading

from rodsheet_values import packed_size

HERE = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
SERVER = os.path.join(HERE, "process.cjs")
OLDEST_NODE = 18
# Where installers leave it; a program started from a desktop does not always have the path of a shell.
USUAL_PLACES = (
    "/usr/local/bin/node",
    "/opt/homebrew/bin/node",
    "/usr/bin/node",
    os.path.expandvars(r"%ProgramFiles%\nodejs\node.exe"),
    os.path.expandvars(r"%LOCALAPPDATA%\Programs\nodejs\node.exe"),
)
TRIES = 2


class NoProcess(Exception):
    """Says in plain words why nothing can be calculated."""


def find_node():
    asked = os.environ.get("RODSHEET_NODE")
    if asked:
        if os.path.isfile(asked):
            return asked
        raise NoProcess("RODSHEET_NODE names %s, which is no file. Set it to the program node." % asked)
    found = shutil.which("node") or next((p for p in USUAL_PLACES if os.path.isfile(p)), None)
    if found:
        return found
    raise NoProcess(
        "Rodsheet calculates with Node.js, and there is none on this computer. Install Node.js %d or newer from "
        "nodejs.org, or set RODSHEET_NODE to the path of the program node, and start LibreOffice again." % OLDEST_NODE
    )


class Process:
    def __init__(self):
        # The program calculates in one thread; a nested call comes from inside the reading of a cell.
        self.lock = threading.RLock()
        self.child = None
        self.failed = None

    def call(self, name, arguments):
        """Rows of cells, blanks as empty texts, and the places of errors."""
        try:
            return self.ask({"call": name, "arguments": arguments})
        except NoProcess:
            # BURN.WHY and the menu say the reason.
            return {"rows": [[""]], "errors": [[0, 0, "#VALUE!"]]}

    def why(self, cell, formula):
        """What is to be said of a cell, or of a formula as if it stood there; blank where nothing is."""
        # Left out it is nothing, from a range a table.
        written = isinstance(formula, str) and formula.strip() != ""
        try:
            question = {"why": cell.as_if(formula), "written": True} if written else {"why": cell.described()}
            return self.ask(question, cell.read)["text"]
        except NoProcess as reason:
            return str(reason)

    def version(self):
        """Raises NoProcess."""
        return self.ask({"call": "BURN.VERSION", "arguments": []})["rows"][0][0]

    def pane(self):
        """Addresses of the pane: for the browser, and for this program."""
        return self.ask({"pane": True})

    def ask(self, question, read=None):
        line = json.dumps(question, allow_nan=False) + "\n"
        with self.lock:
            for left in reversed(range(TRIES)):
                child = self.running()
                try:
                    return self.answer(child, line, read)
                except (OSError, ValueError):
                    # It has ended, or what it says cannot be read: the same question goes to a new one.
                    self.end()
                    if left == 0:
                        raise NoProcess(
                            "The calculation ended %d times over this cell; that is a fault of Rodsheet. "
                            "Other cells are calculated as before." % TRIES
                        ) from None
        return None

    def answer(self, child, line, read):
        self.write(child, line)
        while True:
            heard = child.stdout.readline()
            if not heard:
                raise OSError("it has ended")
            # The program takes no whole numbers.
            answer = json.loads(heard, parse_int=float) if heard.startswith(b'{"rows"') else json.loads(heard)
            if "packed" in answer:
                answer["bytes"] = child.stdout.read(packed_size(answer))
                if len(answer["bytes"]) < packed_size(answer):
                    raise OSError("it has ended")
            if "read" not in answer:
                return answer
            try:
                cells = {"cells": read(*answer["read"])}
            except Exception as reason:
                cells = {"problem": str(reason)}
            self.write(child, json.dumps(cells, allow_nan=False) + "\n")

    def write(self, child, line):
        child.stdin.write(line.encode("ascii"))
        child.stdin.flush()

    def running(self):
        if self.child is None or self.child.poll() is not None:
            self.child = self.started()
        return self.child

    def started(self):
        node = find_node()
        options = {}
        if sys.platform == "win32":
            options["creationflags"] = subprocess.CREATE_NO_WINDOW
        try:
            # It ends when its input does, so also when the program is killed.
            return subprocess.Popen([node, SERVER], stdin=subprocess.PIPE, stdout=subprocess.PIPE, **options)
        except OSError as reason:
            raise NoProcess("Node.js at %s cannot be started: %s" % (node, reason)) from None

    def end(self):
        if self.child is None:
            return
        for pipe in (self.child.stdin, self.child.stdout):
            try:
                pipe.close()
            except OSError:
                pass
        self.child.kill()
        self.child.wait()
        self.child = None


PROCESS = Process()
