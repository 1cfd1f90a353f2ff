#!/usr/bin/env python3
"""An independent reading of a studio: plans with tomllib, logs and the record
book with openpyxl, percentages by engine.py.

    studio.py pourboard FOLDER [PLAN...]

fills the logs of the plans named, which it copies into FOLDER, with ratings by
chance; lets `pourboard book` make the book of FOLDER; and holds each row of its
sheet Tiles against what it reads and works out itself. Tiles rated 4 or more
with over 1 % of copper carbonate are counted here, in the book by openpyxl and,
where soffice is given in the environment variable SOFFICE, by a spreadsheet's
own formula.

    studio.py --time pourboard FOLDER

only reads plans and logs and works out percentages, to be timed.
"""
import os, random, re, shutil, subprocess, sys, tempfile, tomllib

import openpyxl

sys.dont_write_bytecode = True
from engine import Glaze, amount, densities, in_steps, shares, work_out

COPPER = "Copper carbonate"
ENTERED = {"Rating", "Surface", "Defects", "Colour", "Notes", "Photograph"}


def percentages(plan, density):
    """For each cup, the percent of each colourant or end glaze as measured."""
    blend = plan["blend"]
    if "series" in blend:
        for cup in work_out(plan, density):
            yield {s["material"]: percent for s, (_, _, percent, _) in zip(blend["series"], cup["doses"])}
        return
    basis = blend.get("basis", "dry")
    if basis == "volume":  # needs no SG
        size, step = amount(plan["cup"]["volume"])[0], amount(plan["measure"]["pour"])[0]
        for asked in shares(blend):
            measured = in_steps([size * p for p in asked], step, False)
            yield {name: 100 * m / sum(measured) for name, m in zip(blend["ends"], measured)}
        return
    glazes = {g["name"]: g for g in plan["glaze"]}
    ends = [Glaze(glazes[name], density) for name in blend["ends"]]
    grams = amount(plan.get("measure", {}).get("pour", "5 mL"))[1] == "g"
    for cup in work_out(plan, density):
        ml = [m / e.rho if grams else m for m, e in zip(cup["measured"], ends)]
        each = [v * (e.recipe if basis == "dry" else e.rho) for v, e in zip(ml, ends)]
        yield {name: 100 * x / sum(each) for name, x in zip(blend["ends"], each)}


def rows_of(path, sheet):
    """The rows of a sheet, each by its heads; without those that are empty."""
    book = openpyxl.load_workbook(path, read_only=True, data_only=True)
    rows = book[sheet].iter_rows(values_only=True)
    heads = next(rows)
    return [dict(zip(heads, row)) for row in rows if any(v is not None for v in row)]


def read(program, folder):
    """Every tile of a studio that something is entered of, by plan, mark and
    firing: its cup, body, rating and percentages."""
    tiles, known = {}, {}
    for name in sorted(os.listdir(folder)):
        log = os.path.join(folder, name[:-5] + "-log.xlsx")
        if not name.endswith(".toml") or not os.path.exists(log):
            continue
        path = os.path.join(folder, name)
        with open(path, "rb") as f:
            plan = tomllib.load(f)
        density = densities(program, plan)

        def remembered(material, density=density, own={m["name"] for m in plan.get("material", [])}):
            if material in own:
                return density(material)
            if material not in known:
                known[material] = density(material)
            return known[material]

        cups = list(percentages(plan, remembered))
        extra = ENTERED | set(plan.get("log", {}).get("numbers", [])) | {"Coat %d" % n for n in range(1, 13)}
        for row in rows_of(log, "Tiles"):
            if row["Mark"] and any(row.get(head) is not None for head in extra):
                cup = int(re.match(re.escape(plan["mark"]) + r"(\d+)", row["Mark"])[1])
                tiles[path, row["Mark"], row["Firing"] or "A"] = cup, row["Body"], row["Rating"], cups[cup - 1]
    return tiles


def fill(program, folder, plans):
    """Copies plans into a studio and fills in their logs by chance."""
    chance = random.Random(19)
    for plan in plans:
        path = shutil.copy(plan, folder)
        subprocess.run([program, "make", "-q", path], check=True, stdout=subprocess.DEVNULL)
        log = path[:-5] + "-log.xlsx"
        book = openpyxl.load_workbook(log)
        sheet = book["Tiles"]
        heads = {cell.value: cell.column for cell in sheet[1]}
        for row in range(2, sheet.max_row + 1):
            if chance.random() < 0.6:
                sheet.cell(row, heads["Rating"]).value = chance.randint(1, 5)
            elif chance.random() < 0.3:
                sheet.cell(row, heads["Notes"]).value = "crawls at the foot"
        book.save(log)


def by_formula(book, rating, copper):
    """The count by a spreadsheet's own formula; columns by number from 1."""
    letter = openpyxl.utils.get_column_letter
    with tempfile.TemporaryDirectory() as folder:
        w = openpyxl.load_workbook(book)
        last = w["Tiles"].max_row
        area = lambda column: "Tiles.$%s$2:$%s$%d" % (letter(column), letter(column), last)
        first = w.create_sheet("Count", 0)
        first["A1"] = ('=COUNTIFS(%s,">=4",%s,">1")' % (area(rating), area(copper))).replace("Tiles.", "Tiles!")
        w.active = 0
        path = os.path.join(folder, "count.xlsx")
        w.save(path)
        subprocess.run([os.environ["SOFFICE"], "-env:UserInstallation=file://" + folder + "/profile", "--headless",
                        "--convert-to", "csv", "--outdir", folder, path], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        with open(os.path.join(folder, "count.csv")) as f:
            return int(f.readline().strip())


def main():
    if sys.argv[1] == "--time":
        print(len(read(sys.argv[2], sys.argv[3])), "tiles")
        return
    program, folder, plans = sys.argv[1], sys.argv[2], sys.argv[3:]
    fill(program, folder, plans)
    subprocess.run([program, "book", "-q", folder], check=True, stdout=subprocess.DEVNULL)
    book = folder + "-book.xlsx"
    own, theirs, wrong, figures = read(program, folder), rows_of(book, "Tiles"), [], 0
    seen = set()
    for row in theirs:
        key = row["Plan"], row["Mark"], row["Firing"]
        if key in seen or key not in own:
            wrong.append("%s: %s" % (key, "twice" if key in seen else "not in its log"))
            continue
        seen.add(key)
        cup, body, rating, parts = own[key]
        if (cup, body, rating) != (row["Cup"], row["Body"], row["Rating"]):
            wrong.append("%s: cup, body, rating are %s, %s, %s" % (key, row["Cup"], row["Body"], row["Rating"]))
        for head, value in row.items():
            if head and head.endswith(" %"):
                right = parts.get(head[:-2])
                figures += right is not None
                if (right is None) != (value is None) or right is not None and abs(right - value) > 2e-6 * max(1, right):
                    wrong.append("%s: %s is %s, %s is right" % (key, head, value, right))
    wrong += ["%s is not in the book" % (key,) for key in own if key not in seen]
    here = sum(1 for _, _, rating, parts in own.values() if (rating or 0) >= 4 and parts.get(COPPER, 0) > 1)
    counts = {"here": here, "in the book": sum(1 for row in theirs if (row["Rating"] or 0) >= 4 and (row[COPPER + " %"] or 0) > 1)}
    if "SOFFICE" in os.environ:
        heads = list(theirs[0])
        counts["by formula"] = by_formula(book, heads.index("Rating") + 1, heads.index(COPPER + " %") + 1)
    if len(set(counts.values())) > 1 or not here:
        wrong.append("tiles of over 1 %% copper rated 4 or more: %s" % counts)
    print(*wrong[:20], sep="\n", end="\n" if wrong else "")
    print("%d tiles, %d percentages, filtered %s, %d wrong" % (len(own), figures, counts, len(wrong)))
    sys.exit(1 if wrong or not own else 0)


if __name__ == "__main__":
    main()
