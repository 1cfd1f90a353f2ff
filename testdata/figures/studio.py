#!/usr/bin/env python3
"""Times `pourboard book` as a whole process over studios of 10, 100 and 1000
tests with filled logs, and beside it, in the same run, the independent reader
of testdata/independent/studio.py on 100 of them, scaled. Prints a table for
DEVELOPERS.md.

    go build -o /path/to/pourboard ./cmd/pourboard
    python3 testdata/figures/studio.py /path/to/pourboard [RUNS]

Needs openpyxl (python3-openpyxl). A test is a colourant line of 21 cups on
three bodies, 63 tiles, each with a rating, a surface and a note.
"""
import os, shutil, statistics, subprocess, sys, tempfile, time

import openpyxl

RUNS = int(sys.argv[2]) if len(sys.argv) > 2 else 3
HERE = os.path.dirname(os.path.abspath(__file__))
READER = os.path.join(HERE, "..", "independent", "studio.py")
SURFACES = "gloss", "satin", "dry"


def filled(program, folder):
    """One test of 63 tiles with a filled log: its plan's text and the log's file."""
    with open(os.path.join(HERE, "..", "plans", "line-series.toml")) as f:
        lines = f.read().splitlines()
    percent = "percent = [%s]" % ", ".join(str(i / 4) for i in range(21))
    text = "\n".join(percent if line.startswith("percent") else line for line in lines) + "\n"
    path = os.path.join(folder, "first.toml")
    with open(path, "w") as f:
        f.write(text)
    subprocess.run([program, "make", "-q", path], check=True, stdout=subprocess.DEVNULL)
    log = path[:-5] + "-log.xlsx"
    book = openpyxl.load_workbook(log)
    sheet = book["Tiles"]
    heads = {cell.value: cell.column for cell in sheet[1]}
    for row in range(2, sheet.max_row + 1):
        sheet.cell(row, heads["Rating"]).value = 1 + row % 5
        sheet.cell(row, heads["Surface"]).value = SURFACES[row % 3]
        sheet.cell(row, heads["Notes"]).value = "note %d, made up" % row
    book["Firings"]["B3"] = "6"
    book.save(log)
    if sheet.max_row != 64:
        sys.exit("%d tiles, 63 are wanted" % (sheet.max_row - 1))
    return text, log


def studio(folder, text, log, tests):
    """A studio of so many tests, each of its own title."""
    os.mkdir(folder)
    for i in range(tests):
        name = os.path.join(folder, "test%04d" % i)
        with open(name + ".toml", "w") as f:
            f.write("\n".join('title = "Made up %d"' % i if line.startswith("title") else line for line in text.splitlines()))
        shutil.copy(log, name + "-log.xlsx")


def timed(command, runs):
    """Median seconds, median seconds of processor, and largest peak memory in MiB
    of a command."""
    seconds, busy, peak = [], [], 0
    for _ in range(runs):
        begun = time.perf_counter()
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        _, status, usage = os.wait4(process.pid, 0)
        seconds.append(time.perf_counter() - begun)
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode != 0:
            sys.exit("%s ended with %d" % (command, process.returncode))
        busy.append(usage.ru_utime + usage.ru_stime)
        peak = max(peak, usage.ru_maxrss / 1024)
    return statistics.median(seconds), statistics.median(busy), peak


def main():
    program = os.path.abspath(sys.argv[1])
    with tempfile.TemporaryDirectory() as folder:
        text, log = filled(program, folder)
        reader = work = 0
        print("| tests | tiles | pourboard book | processor | peak MiB | independent reader, scaled from 100 | processor |")
        print("| --- | --- | --- | --- | --- | --- | --- |")
        for tests in (100, 10, 1000):
            of = os.path.join(folder, "studio%d" % tests)
            studio(of, text, log, tests)
            said = subprocess.run([program, "book", of], check=True, capture_output=True, text=True).stdout
            if "%d tests, %d rows of fired tiles, 0 skipped" % (tests, 63 * tests) not in said:
                sys.exit(said)
            took, busy, peak = timed([program, "book", "-q", of], RUNS)
            if tests == 100:
                reader, work, _ = timed([sys.executable, READER, "--time", program, of], max(1, RUNS // 2))
            print("| %d | %d | %.2f s | %.2f s | %.0f | %.1f s | %.1f s |" % (
                tests, 63 * tests, took, busy, peak, reader * tests / 100, work * tests / 100), flush=True)


main()
