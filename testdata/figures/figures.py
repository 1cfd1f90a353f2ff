#!/usr/bin/env python3
"""Times `pourboard make` as a whole process, and beside it, in the same run,
XlsxWriter and reportlab writing a workbook with as many cells and formulas and
pages with as many words. Prints a table for DEVELOPERS.md.

    go build -o /path/to/pourboard ./cmd/pourboard
    python3 testdata/figures/figures.py /path/to/pourboard

Needs openpyxl, XlsxWriter and reportlab (python3-openpyxl, python3-xlsxwriter,
python3-reportlab) and pdftotext and pdfinfo (poppler-utils).
"""
import os, re, subprocess, sys, tempfile, time, zipfile

RUNS = 7
HERE = os.path.dirname(os.path.abspath(__file__))

XLSX = """
import sys, xlsxwriter
cells, formulas, rows, path = int(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]), sys.argv[4]
book = xlsxwriter.Workbook(path)
sheet = book.add_worksheet()
style = book.add_format({"num_format": "0.0"})
columns = max(1, cells // rows)
left = formulas
for r in range(rows):
    for c in range(columns):
        if left > 0:
            sheet.write_formula(r, c, "=ROUND(A1*%d,1)" % c, style, 1.5)
            left -= 1
        else:
            sheet.write_number(r, c, r * 0.5, style)
book.close()
"""

PDF = """
import sys
from reportlab.pdfgen import canvas
pages, words, path = int(sys.argv[1]), int(sys.argv[2]), sys.argv[3]
c = canvas.Canvas(path, pagesize=(595.28, 841.89))
per = max(1, words // pages)
for p in range(pages):
    for w in range(per):
        x, y = 30 + (w % 8) * 65, 800 - (w // 8) % 60 * 12
        c.setFont("Helvetica", 11)
        c.drawString(x, y, "cup %d" % w)
        c.line(x, y - 2, x + 50, y - 2)
    c.showPage()
c.save()
"""


def timed(command):
    """Least seconds, which other work disturbs least, and largest peak memory in MiB
    of a command."""
    seconds, peak = [], 0
    for run in range(RUNS + 1):
        begun = time.perf_counter()
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        _, status, usage = os.wait4(process.pid, 0)
        took = time.perf_counter() - begun
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode != 0:
            sys.exit("%s ended with %d" % (command, process.returncode))
        if run > 0:  # the first warms up
            seconds.append(took)
            peak = max(peak, usage.ru_maxrss / 1024)
    return min(seconds), peak


def counts(path):
    """Cells, formulas and rows of a workbook."""
    cells = formulas = rows = 0
    with zipfile.ZipFile(path) as book:
        for part in book.namelist():
            if part.startswith("xl/worksheets/"):
                text = book.read(part).decode()
                cells += len(re.findall(r"<c ", text))
                formulas += len(re.findall(r"<f[ >]", text))
                rows = max(rows, len(re.findall(r"<row ", text)))
    return cells, formulas, rows


def main():
    program = os.path.abspath(sys.argv[1])
    with open(os.path.join(HERE, "..", "plans", "cells-66.toml")) as f:
        plan = f.read().replace('["Porcelain", "Buff", "Red"]', '["Porcelain", "Buff"]')
    print("| cups | pourboard make | peak MiB | pages | cells | formulas | XlsxWriter, as many cells | reportlab, as many words |")
    print("| --- | --- | --- | --- | --- | --- | --- | --- |")
    for divisions, cups in ((10, 66), (50, 1326), (100, 5151)):
        with tempfile.TemporaryDirectory() as folder:
            file = os.path.join(folder, "test.toml")
            with open(file, "w") as f:
                f.write(plan.replace("divisions = 10", "divisions = %d" % divisions))
            make = [program, "make", "-q", file]
            took, peak = timed(["sh", "-c", 'rm -f "$2"; exec "$0" make -q "$1"', program, file, file[:-5] + "-log.xlsx"])
            subprocess.run(make, check=True, stdout=subprocess.DEVNULL)
            pdf = file[:-5] + ".pdf"
            info = subprocess.run(["pdfinfo", pdf], check=True, capture_output=True, text=True).stdout
            pages = int(re.search(r"Pages:\s+(\d+)", info).group(1))
            words = len(subprocess.run(["pdftotext", pdf, "-"], check=True, capture_output=True, text=True).stdout.split())
            cells = formulas = rows = 0
            for book in ("-pour.xlsx", "-log.xlsx"):
                c, n, r = counts(file[:-5] + book)
                cells, formulas, rows = cells + c, formulas + n, max(rows, r)
            xlsx, _ = timed([sys.executable, "-c", XLSX, str(cells), str(formulas), str(rows), os.path.join(folder, "x.xlsx")])
            report, _ = timed([sys.executable, "-c", PDF, str(pages), str(words), os.path.join(folder, "x.pdf")])
            print("| %d | %.0f ms | %.0f | %d | %d | %d | %.0f ms | %.0f ms |" % (
                cups, took * 1000, peak, pages, cells, formulas, xlsx * 1000, report * 1000), flush=True)


main()
