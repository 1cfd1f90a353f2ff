"""Drives one LibreOffice over its own interface.

Reads a request a line (JSON) and writes an answer a line:

  {"in": FILE, "type": {CELL: VALUE, ...}, "sheets": [SHEET, ...]}
                                            types into cells (a name, or Sheet!B4; null empties),
                                            works all out, answers with the values of the sheets
                                            (all where none is named) and with the errors of all,
                                            and takes it back
  {"in": FILE, "pages": SHEET}              answers with how many pages a sheet prints on
  {"save": FILE, "as": FILE}                opens a file and saves it anew as .xlsx

The files typed into last stay open.
"""

import json
import os
import subprocess
import sys
import time

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException
from com.sun.star.lang import DisposedException
from com.sun.star.sheet.FormulaResult import ERROR


def start(profile):
    pipe = "pourboard%d" % os.getpid()
    office = subprocess.Popen(
        ["soffice", "-env:UserInstallation=file://" + profile, "--headless", "--norestore", "--nologo",
         "--nodefault", "--nofirststartwizard", "--accept=pipe,name=%s;urp;" % pipe],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
    for _ in range(600):
        try:
            context = resolver.resolve("uno:pipe,name=%s;urp;StarOffice.ComponentContext" % pipe)
            return office, context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
        except NoConnectException:
            time.sleep(0.1)
    sys.exit("no connection to LibreOffice")


def option(name, value):
    p = PropertyValue()
    p.Name, p.Value = name, value
    return p


def load(desktop, path):
    doc = desktop.loadComponentFromURL(uno.systemPathToFileUrl(path), "_blank", 0, (option("Hidden", True),))
    if doc is None:
        sys.exit("LibreOffice does not open " + path)
    return doc


def cell(doc, place):
    if "!" not in place:
        at = doc.NamedRanges.getByName(place).ReferredCells.RangeAddress
        return doc.Sheets.getByIndex(at.Sheet).getCellByPosition(at.StartColumn, at.StartRow)
    sheet, at = place.split("!")
    return doc.Sheets.getByName(sheet).getCellRangeByName(at)


def values(doc, names):
    out = {}
    for sheet in doc.Sheets:
        name, rows = sheet.Name, ()
        if not names or name in names:
            cursor = sheet.createCursor()
            cursor.gotoEndOfUsedArea(False)
            end = cursor.RangeAddress
            rows = sheet.getCellRangeByPosition(0, 0, end.EndColumn, end.EndRow).DataArray
        out[name] = {"rows": rows, "errors": sheet.queryFormulaCells(ERROR).RangeAddressesAsString}
    return out


def typed(doc, entries, sheets):
    before = []
    for place, value in entries.items():
        c = cell(doc, place)
        before.append((c, c.Formula))
        if value is None:
            c.String = ""
        elif isinstance(value, str):
            c.String = value
        else:
            c.Value = value
    doc.calculate()
    out = values(doc, sheets)
    for c, formula in before:
        c.Formula = formula
    return out


def opened(desktop, docs, path):
    if path not in docs:
        if len(docs) == 4:
            docs.pop(next(iter(docs))).close(True)
        doc = load(desktop, path)
        for sheet in doc.Sheets:
            sheet.unprotect("")
        doc.calculateAll()  # whatever values the file carries
        docs[path] = doc
    return docs[path]


def main():
    office, desktop = start(sys.argv[1])
    docs = {}
    try:
        for line in sys.stdin:
            request = json.loads(line)
            answer = {}
            if "save" in request:
                other = load(desktop, request["save"])
                other.storeToURL(uno.systemPathToFileUrl(request["as"]), (option("FilterName", "Calc MS Excel 2007 XML"),))
                other.close(True)
            elif "pages" in request:
                doc = opened(desktop, docs, request["in"])
                answer = {"pages": doc.getRendererCount(doc.Sheets.getByName(request["pages"]), ())}
            else:
                answer = typed(opened(desktop, docs, request["in"]), request["type"], request.get("sheets"))
            print(json.dumps(answer), flush=True)
    finally:
        for doc in docs.values():
            doc.close(True)
        try:
            desktop.terminate()
        except DisposedException:  # it ends before it answers
            pass
        office.wait()


main()
