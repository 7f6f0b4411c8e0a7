"""Entry of the extension inside LibreOffice: registers the functions, the menu's commands and the job of each window.

What the functions are called and take is read from functions.json, which the build writes from their declarations; they
are calculated in one process beside the program (rodsheet_process.py).
"""

import json
import os

import uno
import unohelper
from com.sun.star.lang import XServiceInfo, XServiceName
from com.sun.star.task import XJob, XJobExecutor

from rodsheet_process import PROCESS
from rodsheet_rename import rename_stored
from rodsheet_sheet import SheetCell
from rodsheet_values import rows_for_program, toward_process
from rodsheet_window import about, follow_window, open_pane

HERE = os.path.dirname(os.path.abspath(__file__))
ADD_IN = "com.sun.star.sheet.AddIn"

with open(os.path.join(HERE, "functions.json"), encoding="utf-8") as file:
    DESCRIBED = json.load(file)


def function_method(name, zero_is_blank):
    def method(self, *values):
        return rows_for_program(PROCESS.call(name, toward_process(values, zero_is_blank)))

    return method


def why(self, document, cells, formula):
    return ((PROCESS.why(SheetCell(document, cells.getCellByPosition(0, 0)), formula),),)


def maker(service):
    """Makes the object with the methods of one service. The type library is not known yet while this file is registered."""
    return lambda context: service_class(service)()


def service_class(service):
    name, methods = service["name"], service["methods"]
    body = {
        "getServiceName": lambda self: name,
        "getImplementationName": lambda self: name,
        "supportsService": lambda self, asked: asked in (ADD_IN, name),
        "getSupportedServiceNames": lambda self: (ADD_IN, name),
    }
    for each in methods:
        body[each["id"]] = why if each["ofCells"] else function_method(each["name"], each["zeroIsBlank"])
    interface = uno.getClass(DESCRIBED["module"] + "." + service["interface"])
    return type(service["interface"], (unohelper.Base, interface, XServiceName, XServiceInfo), body)


class Job(unohelper.Base, XJob, XJobExecutor, XServiceInfo):
    """Called with the words of a menu entry, or when a window of a document has been made."""

    def __init__(self, context):
        self.context = context

    def trigger(self, what):
        {"pane": open_pane, "about": about}[what](self.context)

    def execute(self, arguments):
        environment = {v.Name: v.Value for a in arguments if a.Name == "Environment" for v in a.Value}
        document = environment.get("Model")
        if document is not None and document.supportsService("com.sun.star.sheet.SpreadsheetDocument"):
            rename_stored(document)
            follow_window(document.getCurrentController())

    def getImplementationName(self):
        return DESCRIBED["job"]

    def supportsService(self, asked):
        return asked == DESCRIBED["job"]

    def getSupportedServiceNames(self):
        return (DESCRIBED["job"],)


g_ImplementationHelper = unohelper.ImplementationHelper()
for described in DESCRIBED["services"]:
    g_ImplementationHelper.addImplementation(maker(described), described["name"], (ADD_IN, described["name"]))
g_ImplementationHelper.addImplementation(Job, DESCRIBED["job"], (DESCRIBED["job"],))
