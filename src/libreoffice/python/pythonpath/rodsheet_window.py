"""The pane, the status bar and the menu: what belongs to the windows of the program.

The pane is a page in the browser, served by the process on this computer's own address. The program asks the process
what the page wants to know (`asked`) and tells it what is selected (`selected`), each in a thread of its own, so that
neither the program nor a calculation waits for the page.
"""

import json
import threading
import traceback
import urllib.parse

import unohelper
from com.sun.star.awt.MessageBoxType import ERRORBOX, INFOBOX
from com.sun.star.view import XSelectionChangeListener
from rodsheet_process import PROCESS, NoProcess
from rodsheet_sheet import (
    Refused,
    SheetCell,
    active_cell,
    add_sheet,
    format_table,
    our_formulas,
    put_formula,
    read,
    write_cells,
)

# A change of another window, or of a value, is seen after so many seconds at the latest.
LOOK = 1.0
# com.sun.star.system.SystemShellExecuteFlags.URIS_ONLY
URIS_ONLY = 1
OK = 1


class Followed:
    """What is selected where the user is."""

    def __init__(self):
        self.controllers = []
        self.current = None
        self.changed = threading.Event()
        self.bridge = None

    def follow(self, controller):
        if controller is None or controller in self.controllers:
            return
        self.controllers.append(controller)
        self.current = controller
        controller.addSelectionChangeListener(Listener(self, controller))

    def moved(self, controller):
        self.current = controller
        if self.bridge is not None:
            self.changed.set()
        elif failed_with_ours(controller):
            self.connect()

    def left(self, controller):
        self.controllers = [c for c in self.controllers if c != controller]
        if self.current == controller:
            self.current = self.controllers[-1] if self.controllers else None

    def connect(self):
        """The bridge to the process; a new one where the process is another. Raises NoProcess."""
        if self.bridge is None or not self.bridge.alive():
            self.bridge = Bridge(self, PROCESS.pane())
        self.changed.set()
        return self.bridge


class Listener(unohelper.Base, XSelectionChangeListener):
    def __init__(self, followed, controller):
        self.followed = followed
        self.controller = controller

    def selectionChanged(self, _event):
        try:
            self.followed.moved(self.controller)
        except NoProcess:
            # Said by every cell, by BURN.WHY and by the menu.
            pass
        except Exception:
            traceback.print_exc()

    def disposing(self, _event):
        self.followed.left(self.controller)


FOLLOWED = Followed()


class Bridge:
    """Talks to the process for the pane and the status bar."""

    def __init__(self, followed, addresses):
        self.followed = followed
        self.page = addresses["page"]
        self.place = urllib.parse.urlsplit(addresses["program"])
        self.child = PROCESS.child
        self.told = None
        self.shown = None
        for work in (self.answer, self.tell):
            threading.Thread(target=work, daemon=True).start()

    def alive(self):
        return self.child.poll() is None

    def post(self, what, content):
        # Takes a while to load, and most who calculate never ask for it.
        import http.client

        connection = http.client.HTTPConnection(self.place.netloc, timeout=60)
        try:
            connection.request("POST", self.place.path + what, json.dumps(content, allow_nan=False))
            return json.loads(connection.getresponse().read())
        finally:
            connection.close()

    def answer(self):
        """Does what the page asks for, one thing after the other."""
        last = None
        while self.alive():
            try:
                question = self.post("asked", last)
                last = None
                if question is not None:
                    last = {"id": question["id"], **self.done(question)}
            except OSError:
                return
            except Exception:
                traceback.print_exc()

    def done(self, question):
        try:
            return {"result": getattr(self, question["do"])(*question["with"])}
        except Refused as reason:
            return {"problem": str(reason)}
        except Exception as reason:
            return {"problem": "the program refused it: %s" % reason}

    def controller(self):
        controller = self.followed.current
        if controller is None:
            raise Refused("no workbook is open")
        return controller

    def read(self, reference, sheet):
        return read(self.controller().getModel(), reference, sheet)

    def put(self, formula, rows, columns):
        if active_cell(self.controller()) is None:
            raise Refused("no cell is selected")
        put_formula(self.controller(), formula, rows, columns)
        self.followed.changed.set()

    def formulas(self):
        return our_formulas(self.controller().getModel())

    def write(self, sheet, cells):
        write_cells(self.controller().getModel(), sheet, cells)
        self.followed.changed.set()

    def add(self, name, rows):
        return add_sheet(self.controller(), name, rows)

    def format(self, table):
        format_table(self.controller(), table)

    def tell(self):
        """Tells what is selected whenever that changes, and shows what is to be said of it."""
        while self.alive():
            self.followed.changed.wait(LOOK)
            self.followed.changed.clear()
            try:
                told = self.selected()
                if told == self.told:
                    continue
                self.told = told
                self.show(self.post("selected", told)["status"])
            except OSError:
                return
            except Exception:
                # The window may be closing, or a cell be edited; the next look tells.
                pass

    def selected(self):
        controller = self.followed.current
        cell = controller and active_cell(controller)
        return SheetCell(controller.getModel(), cell).described() if cell else None

    def show(self, text):
        """In the status bar of the window; the program's own texts come back where there is nothing to say."""
        if self.shown is not None:
            self.shown.end()
            self.shown = None
        if text:
            self.shown = self.followed.current.getFrame().createStatusIndicator()
            self.shown.start(text, 0)


def failed_with_ours(controller):
    cell = active_cell(controller)
    return cell is not None and cell.getError() != 0 and "BURN." in cell.getFormula().upper()


def follow_window(controller):
    FOLLOWED.follow(controller)


def open_pane(context):
    """Opens the pane in the user's browser."""
    desktop = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
    frame = desktop.getCurrentFrame()
    if frame is not None:
        FOLLOWED.follow(frame.getController())
    try:
        address = FOLLOWED.connect().page
    except NoProcess as reason:
        say(context, ERRORBOX, str(reason))
        return
    opener = context.ServiceManager.createInstanceWithContext("com.sun.star.system.SystemShellExecute", context)
    try:
        opener.execute(address, "", URIS_ONLY)
    except Exception:
        say(context, INFOBOX, "No browser could be opened. Open this address in one: %s" % address)


def about(context):
    try:
        version = PROCESS.version()
    except NoProcess as reason:
        say(context, ERRORBOX, str(reason))
        return
    say(
        context,
        INFOBOX,
        "Calculation %s. Rodsheet estimates; it never says that a job is safe. "
        "Local codes, permits and qualified people rule." % version,
    )


def say(context, kind, text):
    toolkit = context.ServiceManager.createInstanceWithContext("com.sun.star.awt.Toolkit", context)
    desktop = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
    window = desktop.getCurrentFrame().getContainerWindow()
    toolkit.createMessageBox(window, kind, OK, "Rodsheet", text).execute()
