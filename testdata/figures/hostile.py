"""Measures pourboard on files that are wrong, each as a process of its own.

    python3 testdata/figures/hostile.py ./pourboard [FOLDER]

The files are made here: plans, logs as CSV, logs as workbooks. The table says how
many were tried, read, refused in one line, refused otherwise (at more length, by a
line for each fault of a plan), crashed, and what the worst took. Files that cost
more than 0.5 s or 64 MiB are listed. In the end `book` and
`find` read a folder of them all, each log with a plan of its own. With FOLDER the
files are kept there.
"""
import io
import os
import random
import re
import sys
import tempfile
import time
import zipfile

HERE = os.path.dirname(os.path.abspath(__file__))
PLANS = os.path.join(HERE, "..", "plans")


def run(args):
    """Exit code, what was printed, processor time in s, peak in MiB."""
    out = tempfile.TemporaryFile()
    pid = os.fork()
    if pid == 0:
        os.dup2(out.fileno(), 1)
        os.dup2(out.fileno(), 2)
        os.execv(args[0], args)
    _, status, used = os.wait4(pid, 0)
    out.seek(0)
    return os.waitstatus_to_exitcode(status), out.read(), used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def plans():
    text = open(os.path.join(PLANS, "list.toml")).read()
    line = open(os.path.join(PLANS, "line-series.toml")).read()

    def cells(body):
        return re.sub(r"(?m)^cells = .*$", lambda _: "cells = " + body, text)

    def percent(body):
        return re.sub(r"(?m)^percent .*$", lambda _: "percent = " + body, line)

    n = 100_000
    yield "100000 cells, a line each", cells("[\n" + ",\n".join(["[70, 20, 10]"] * n) + "\n]")
    yield "100000 cells on a line", cells("[" + ",".join(["[70,20,10]"] * n) + "]")
    yield "100000 cells of one part", cells("[" + ",".join(["[1]"] * n) + "]")
    yield "5000 cells of 100 parts", cells("[" + ",".join(["[" + ",".join("1" * 100) + "]"] * 5000) + "]")
    yield "100000 percentages", percent("[" + ",".join(map(str, range(n))) + "]")
    yield "100000 repeats", text.replace("[tiles]", "[tiles]\nrepeats = 100000", 1)
    yield "a million divisions", open(os.path.join(PLANS, "triaxial.toml")).read().replace("divisions = 6", "divisions = 1000000")
    yield "lines of a", "a\n" * 400_000
    yield "lines of a = ", "a = \n" * 200_000
    yield "keys without end", "".join(f"a{i} = 1\n" for i in range(100_000))
    yield "sections without end", "".join(f"[s{i}]\n" for i in range(100_000))
    yield "arrays nested", "a = " + "[" * 100_000 + "]" * 100_000
    yield "arrays not closed", "a = " + "[" * 400_000
    yield "tables nested", "a = " + "{ a = " * 50_000 + "1" + " }" * 50_000
    yield "key of many parts", "a" + ".a" * 100_000 + " = 1"
    yield "section of many parts", "[a" + ".a" * 100_000 + "]"
    yield "string of 800 kB", text.replace("title = \"", "title = \"" + "x" * 800_000)
    yield "string of 3 MB, not closed", 'title = "' + "x" * 3_000_000
    yield "string of lines", 'title = """' + "x\n" * 400_000 + '"""'
    yield "comment of 800 kB", "#" + "x" * 800_000 + "\n" + text
    yield "5 MB", text + "\n# x" * 1_300_000
    yield "digits", text.replace("coats  = 3", "coats = " + "9" * 500_000)
    yield "number of 1e999", text.replace("coats  = 3", "coats = 1e999")
    yield "zero bytes", "\0" * 800_000
    yield "glazes without end", text + "".join(f'\n[[glaze]]\nname = "g{i}"\n' for i in range(20_000))
    yield "materials without end", text + "".join(f'\n[[material]]\nname = "m{i}"\n' for i in range(20_000))
    yield "poured without end", text + '\n[[poured]]\ncups = [1]\namount = "1 mL"\n' * 20_000
    yield "bodies without end", re.sub(r"(?m)^bodies = .*$", lambda _: "bodies = [" + ",".join(f'"b{i}"' for i in range(50_000)) + "]", text)
    yield "bytes that are no text", b"\xff\xfe\xfd" * 200_000
    yield "UTF-16", ("\ufeff" + text).encode("utf-16-le")
    yield "a workbook", workbook()
    rng = random.Random(13)
    body = text.encode()
    for i in range(100):
        spoilt = bytearray(body)
        for _ in range(rng.randrange(1, 12)):
            at = rng.randrange(len(spoilt))
            spoilt[at : at + rng.randrange(3)] = bytes(rng.choice(b'"[]{}=,.#\n09\x00\xff') for _ in range(rng.randrange(4)))
        yield f"spoilt {i}", bytes(spoilt)


def tables():
    """CSV logs of line-series.toml."""
    head = "Mark,Rating,Notes,Cup\n"
    yield "blank lines", head + "\n" * 2_000_000
    yield "row 999999999", head + "\n" * 3_000_000 + "MC2P,3,x,2\n"
    yield "5 million cells", head + ("1," * 49 + "1\n") * 100_000
    yield "a million rows", head + "MC2P,3,x,2\n" * 1_000_000
    yield "a field of 20 MB", head + 'MC2P,3,"' + "x" * 20_000_000 + '",2\n'
    yield "a field of lines", head + 'MC2P,3,"' + "x\n" * 2_000_000 + '",2\n'
    yield "a quote never closed", head + 'MC2P,3,"x,2\n' * 100_000
    yield "quotes", '"' * 3_000_000
    yield "commas", "," * 3_000_000
    yield "columns without end", ",".join(f"c{i}" for i in range(300_000))
    yield "Mark columns without end", ",".join(["Mark"] * 300_000)
    yield "heads again and again", head * 200_000
    yield "marks of 1 MB", head + "M" * 1_000_000 + ",3,x,2\n"
    yield "wrong marks", head + "".join(f"ZZ{i},3,x,2\n" for i in range(20_000))
    yield "numbers of a million digits", head + "MC2P," + "9" * 1_000_000 + ",x,2\n"
    yield "zero bytes", b"\0" * 3_000_000
    yield "bytes that are no text", b"\xff\xfe" * 1_000_000
    yield "UTF-16", ("\ufeff" + head + "MC2P,3,x,2\n").encode("utf-16-le")
    yield "no head", "MC2P,3,x,2\n"
    yield "nothing", ""
    yield "carriage returns", (head + "MC2P,3,x,2\n").replace("\n", "\r")
    yield "signs that steer a terminal", head + "MC2P,3,\x1b[31m\u202e,2\n"
    for ending, name in (("%PDF-1.7\n", "a PDF"), ("{\\rtf1 x}", "RTF"), ("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1".encode("latin-1"), "an old workbook")):
        yield name, ending
    rng = random.Random(14)
    body = (head + "".join(f"MC{1 + i // 3}{'PUR'[i % 3]},{i % 5 + 1},note {i},{1 + i // 3}\n" for i in range(18))).encode()
    for i in range(100):
        spoilt = bytearray(body)
        for _ in range(rng.randrange(1, 12)):
            at = rng.randrange(len(spoilt))
            spoilt[at : at + rng.randrange(3)] = bytes(rng.choice(b'",;\t\n\r.-09MPl\x00\xff' if i % 4 == 0 else b'",;\n.-09MPl ') for _ in range(rng.randrange(4)))
        yield f"spoilt {i}", bytes(spoilt)


MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
SHEET = f'<worksheet xmlns="{MAIN}"><sheetData>%s</sheetData></worksheet>'


def words(*texts):
    return "".join(f'<c t="inlineStr"><is><t>{text}</t></is></c>' for text in texts)


PARTS = {
    "[Content_Types].xml": '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>',
    "xl/workbook.xml": f'<workbook xmlns="{MAIN}" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Tiles" sheetId="1" r:id="rId1"/></sheets></workbook>',
    "xl/_rels/workbook.xml.rels": '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>',
    "xl/worksheets/sheet1.xml": SHEET % ("<row>" + words("Mark", "Rating", "Cup") + "</row><row>" + words("MC2P") + "<c><v>3</v></c><c><v>2</v></c></row>"),
}


def workbook(sheet=None, more=(), store=False):
    parts = dict(PARTS)
    if sheet is not None:
        parts["xl/worksheets/sheet1.xml"] = sheet
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED if store else zipfile.ZIP_DEFLATED) as z:
        for name, body in [*parts.items(), *more]:
            z.writestr(name, body)
    return out.getvalue()


def workbooks():
    cell = '<c><v>1</v></c>'
    yield "row 999999999", workbook(SHEET % '<row r="999999999"><c r="A999999999"><v>1</v></c></row>')
    yield "row 1048576", workbook(SHEET % '<row r="1048576"><c r="A1048576"><v>1</v></c></row>')
    yield "column XFE", workbook(SHEET % '<row r="1"><c r="XFE1"><v>1</v></c></row>')
    yield "5 million cells", workbook(SHEET % (("<row>" + cell * 50 + "</row>") * 100_000))
    yield "5 million empty cells", workbook(SHEET % (("<row>" + "<c/>" * 50 + "</row>") * 100_000))
    yield "nested", workbook("<a>" * 200_000 + "</a>" * 200_000)
    yield "nested and open", workbook("<a>" * 1_000_000)
    yield "attributes", workbook("<a " + " ".join(f'a{i}="1"' for i in range(100_000)) + "/>")
    entities = "".join(f'<!ENTITY e{i} "{f"&e{i - 1};" * 10 if i else "lol"}">' for i in range(12))
    yield "entities of entities", workbook(f"<!DOCTYPE x [{entities}]>" + SHEET % '<row><c><v>&e11;</v></c></row>')
    yield "an entity of a file", workbook('<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]>' + SHEET % '<row><c><v>&e;</v></c></row>')
    yield "text of 30 MB", workbook(SHEET % ('<row><c t="inlineStr"><is><t>' + "x" * 30_000_000 + "</t></is></c></row>"))
    yield "text of 30 MB in pieces", workbook(SHEET % ('<row><c t="inlineStr"><is>' + ("<r><t>" + "x" * 30_000 + "</t></r>") * 1000 + "</is></c></row>"))
    yield "a part of 1 GB of blanks", workbook(SHEET % (" " * 1_000_000_000))
    yield "a picture of 500 MB", workbook(more=[("xl/media/image1.png", b"\0" * 500_000_000)])
    yield "30000 parts", workbook(more=[(f"xl/x{i}.xml", "") for i in range(30_000)])
    good = workbook()
    yield "cut in the middle", good[: len(good) // 2]
    yield "cut at the end", good[:-1]
    yield "a zip in a zip in a zip", workbook(more=[("a.zip", workbook(more=[("b.zip", good)]))])
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as z:
        z.writestr("word/document.xml", "<document/>")
    yield "a document", out.getvalue()
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as z:
        z.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
    yield "an open document", out.getvalue()
    yield "zip signature alone", b"PK\x03\x04" + b"\0" * 100_000
    lie = bytearray(workbook(store=True))
    at = lie.find(b"PK\x01\x02")
    while at >= 0:
        lie[at + 20 : at + 28] = b"\xff\xff\xff\x7f" * 2
        at = lie.find(b"PK\x01\x02", at + 1)
    yield "sizes that are a lie", bytes(lie)
    overlap = bytearray(good)
    first = overlap.find(b"PK\x01\x02")
    second = overlap.find(b"PK\x01\x02", first + 1)
    overlap[second + 42 : second + 46] = overlap[first + 42 : first + 46]
    yield "parts in one place", bytes(overlap)
    rng = random.Random(15)
    for i in range(60):
        spoilt = bytearray(workbook(store=i % 2 == 0))
        for _ in range(rng.randrange(1, 30)):
            spoilt[rng.randrange(len(spoilt))] = rng.randrange(256)
        yield f"spoilt {i}", bytes(spoilt)
    for i in range(60):
        spoilt = bytearray(PARTS["xl/worksheets/sheet1.xml"].encode())
        for _ in range(rng.randrange(1, 6)):
            at = rng.randrange(len(spoilt))
            spoilt[at : at + rng.randrange(2)] = bytes(rng.choice(b'<>/"= arc019MP') for _ in range(rng.randrange(3)))
        yield f"sheet spoilt {i}", workbook(bytes(spoilt))


def main():
    program = os.path.abspath(sys.argv[1])
    with tempfile.TemporaryDirectory() as made:
        folder = sys.argv[2] if len(sys.argv) > 2 else os.path.join(made, "studio")
        os.makedirs(folder, exist_ok=True)
        plan = os.path.join(made, "line-series.toml")
        open(plan, "w").write(open(os.path.join(PLANS, "line-series.toml")).read())
        print("| files | tried | read | one line | more lines | crashed | worst s | worst MiB |")
        print("| --- | --- | --- | --- | --- | --- | --- | --- |")
        told = []
        for kind, ending, files, args in (
            ("plans", ".toml", plans(), lambda f: ["check", f]),
            ("logs in CSV", ".csv", tables(), lambda f: ["results", plan, f, "--csv"]),
            ("logs in workbooks", ".xlsx", workbooks(), lambda f: ["results", plan, f, "--csv"]),
        ):
            tried = read = one = more = crashed = 0
            worst_s = worst_mib = 0
            for i, (name, body) in enumerate(files):
                file = os.path.join(folder, f"{kind.replace(' ', '-')}-{i}{'-log' * (ending != '.toml')}{ending}")
                with open(file, "wb") as f:
                    f.write(body if isinstance(body, bytes) else body.encode())
                began = time.time()
                code, out, s, mib = run([program, *args(file)])
                tried += 1
                text = out.decode("utf-8", "replace")
                if code not in (0, 1) or "goroutine" in text or "panic" in text:
                    crashed += 1
                    told.append(f"{kind}, {name}: exit code {code}: {text[:200]!r}")
                elif code == 0:
                    read += 1
                elif text.count("\n") == 1:
                    one += 1
                else:
                    more += 1
                worst_s, worst_mib = max(worst_s, s), max(worst_mib, mib)
                if s > 0.5 or mib > 64 or time.time() - began > 10:
                    told.append(f"{kind}, {name}: {s:.2f} s, {mib:.0f} MiB, exit code {code}: {text[:110]!r}")
                if ending != ".toml":  # its plan, for the book
                    with open(file.removesuffix("-log" + ending) + ".toml", "w") as f:
                        f.write(open(plan).read())
            print(f"| {kind} | {tried} | {read} | {one} | {more} | {crashed} | {worst_s:.2f} | {worst_mib:.0f} |")
        print()
        for args in (["book", folder, "--out", made], ["find", folder, "MC2P"]):
            code, out, s, mib = run([program, *args])
            print(f"{args[0]} of them all: {s:.1f} s, {mib:.0f} MiB, exit code {code}{', a crash' * (b'goroutine' in out)}")
        print("\n".join(told) or "None took more than 0.5 s or 64 MiB.")


main()
