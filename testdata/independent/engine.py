#!/usr/bin/env python3
"""An independent recomputation of a test, written from the design and not from
the program: what each cup is poured and dosed, and what that makes of it.

    engine.py pourboard PLAN...

reads each plan, works it out, and compares every figure with what
`pourboard show --json` says. The relation between specific gravity and dry
content is the one commonly credited to Brongniart; rounding is by whole steps,
the largest remainder first, halves away from zero. The ± is twice the combined
standard uncertainty of the readings (JCGM 100:2008, 5.1.2), each reading with its
own derivative.
"""
import itertools, json, math, re, subprocess, sys, tomllib

UNITS = {"mL": 1, "L": 1000, "g": 1, "kg": 1000, "mm": 1, "cm": 10, "in": 25.4, "%": 1}


def amount(text):
    """The figure of a quantity and its unit: "0,1 kg" is 100 g."""
    figure, unit = re.fullmatch(r"\s*([\d.,]+)\s*(mL|L|g|kg|mm|cm|in|%)\s*", text).groups()
    return float(figure.replace(",", ".")) * UNITS[unit], {"L": "mL", "kg": "g"}.get(unit, unit)


def whole(x):
    """The nearest whole number, halves away from zero."""
    return math.floor(abs(x) + 0.5 + 1e-9) * (1 if x >= 0 else -1)


class Glaze:
    """A wet glaze by its recipe: rho is its SG, solids the density of its dry
    matter, over its additions per gram of recipe."""

    def __init__(self, glaze, density):
        recipe, additions = glaze.get("recipe", []), glaze.get("additions", [])
        total = sum(part for _, part in recipe)
        self.name, self.made_of = glaze["name"], ([(m, part / total) for m, part in recipe], [(m, part / 100) for m, part in additions])
        self.over = sum(part for _, part in additions) / 100 if recipe else 0
        self.solids = glaze.get("solids-density")
        if self.solids is None:
            parts = [(name, part / total) for name, part in recipe] + [(name, part / 100) for name, part in additions]
            known = bool(parts) and all(density(name) for name, _ in parts)
            dry = sum(part for _, part in parts)
            self.solids = dry / sum(part / density(name) for name, part in parts) if known else 2.6
        self.rho = glaze.get("specific-gravity")
        if "water" in glaze:
            water = amount(glaze["water"])[0] / 100
            self.rho = (1 + water) / (1 / self.solids + water)
        if self.rho is None:
            raise NotImplementedError("a glaze without SG")
        self.dry = (self.rho - 1) * self.solids / (self.solids - 1)  # g dry in a mL
        self.recipe = self.dry / (1 + self.over)  # g of recipe in a mL

    def unit(self, basis):
        """g of recipe, mL and g that one unit of a basis is."""
        ml = {"dry": 1 / self.recipe, "volume": 1, "weight": 1 / self.rho}[basis]
        return {"dry": ml * self.recipe, "volume": ml, "weight": ml * self.rho}


def steps_of(series):
    """The percentages of a series."""
    if "percent" in series:
        return series["percent"]
    n, first, last = series["cells"], series.get("from", 0), series["to"]
    if series.get("spacing") == "doubling":
        return [first * (last / first) ** (i / (n - 1)) for i in range(n)]
    return [first + (last - first) * i / (n - 1) for i in range(n)]


def triangle(m):
    """The points of the lattice {3,m}, row by row from the first corner."""
    return [((m - r) / m, (r - j) / m, j / m) for r in range(m + 1) for j in range(r + 1)]


def divisions(blend, corners):
    """m of the lattice {corners,m}, also from the number of its points."""
    if "divisions" in blend:
        return blend["divisions"]
    inside = blend.get("interior", False)
    for m in itertools.count(1):
        if math.comb(m - 1 if inside else m + corners - 1, corners - 1) == blend["tiles"]:
            return m


def shares(blend):
    """The shares of the end glazes in each cup."""
    kind, n = blend["kind"], len(blend["ends"])
    inside = blend.get("interior", False)
    if blend.get("bounds"):
        raise NotImplementedError("bounds")
    if kind == "line":
        cups = blend.get("cells", blend.get("tiles"))
        if inside:
            return [(1 - i / (cups + 1), i / (cups + 1)) for i in range(1, cups + 1)]
        return [(1 - i / (cups - 1), i / (cups - 1)) for i in range(cups)]
    if kind == "biaxial":
        across, down = blend["columns"], blend["rows"]
        grid = [(c / (across - 1), r / (down - 1)) for r in range(down) for c in range(across)]
        return [((1 - x) * (1 - y), x * (1 - y), (1 - x) * y, x * y) for x, y in grid]
    if kind == "triaxial":
        points = triangle(divisions(blend, 3))
        return [p for p in points if not inside or min(p) > 0]
    if kind == "quadraxial":
        m = divisions(blend, 4)
        points = []
        for layer in range(m + 1):
            rest = m - layer
            for p in triangle(rest) if rest else [(0, 0, 0)]:
                points.append(tuple(x * rest / m for x in p) + (layer / m,))
        return points
    if kind == "list":
        return [[part / sum(parts) for part in parts] for parts in blend["cells"]]
    if kind == "pairs":
        points = []
        for i, j in itertools.combinations(range(n), 2):
            for share in blend.get("shares", [50]):
                points.append([share / 100 if k == i else 1 - share / 100 if k == j else 0 for k in range(n)])
        if blend.get("alone"):
            points += [[float(k == i) for k in range(n)] for i in range(n)]
        return points
    raise NotImplementedError(kind)


def percents(blend):
    """The percentage of each series in each cup."""
    kind, series = blend["kind"], blend["series"]
    if kind == "line":
        return [[p] for p in steps_of(series[0])]
    if kind == "biaxial":
        return [[x, y] for y in steps_of(series[1]) for x in steps_of(series[0])]
    if kind == "triaxial":
        top = [s["to"] if "to" in s else max(steps_of(s)) for s in series]
        top = [amount(to)[0] if isinstance(to, str) else to for to in top]
        return [[share * to for share, to in zip(p, top)] for p in triangle(divisions(blend, 3))]
    if kind == "rows":
        shared = blend.get("shared-zero", False)
        cups = [[0] * len(series)] if shared else []
        for i, s in enumerate(series):
            cups += [[p if k == i else 0 for k in range(len(series))] for p in steps_of(s) if p or not shared]
        return cups
    raise NotImplementedError(kind)


def in_steps(exact, step, running):
    """Measured amounts: by a jug so that the cup's total stays, on a scale by
    running readings."""
    counts = [x / step for x in exact]
    if running:
        readings = [whole(total) for total in itertools.accumulate(counts)]
        return [(now - before) * step for now, before in zip(readings, [0] + readings)]
    floors = [math.floor(n + 1e-9) for n in counts]
    left = whole(sum(counts)) - sum(floors)
    for i in sorted(range(len(counts)), key=lambda i: (round(floors[i] - counts[i], 9), i))[:left]:
        floors[i] += 1
    return [n * step for n in floors]


def off_by(ratio, readings, us):
    """Twice the standard uncertainty of a ratio of readings, in percent, by central
    differences."""
    squares = 0
    for i, u in enumerate(us):
        h = 1e-4 * max(1, abs(readings[i]))
        up, down = list(readings), list(readings)
        up[i], down[i] = readings[i] + h, readings[i] - h
        squares += ((ratio(up) - ratio(down)) / (2 * h) * u) ** 2
    return 200 * math.sqrt(squares)


def pours_off(measured, per, step, onto_scale, fill):
    """How far each share of poured glazes could be off, in percent; per is what one
    mL or g of each counts for in a share. On a scale the readings run: each pour
    lies between two of them."""
    poured = [k for k, m in enumerate(measured) if m]
    u = step / math.sqrt(12)
    if onto_scale:
        readings = [0] + list(itertools.accumulate(measured[k] for k in poured))
        us = [u] + [math.sqrt(u * u + fill * fill / 3)] * len(poured)
        amounts = lambda r: [(r[j + 1] - r[j]) * per[k] for j, k in enumerate(poured)]
    else:
        readings, us = [measured[k] for k in poured], [u] * len(poured)
        amounts = lambda r: [x * per[k] for x, k in zip(r, poured)]
    off = [0.0] * len(measured)
    for j, k in enumerate(poured):
        off[k] = off_by(lambda r: amounts(r)[j] / sum(amounts(r)), readings, us)
    return off


def weighed(ends, asked, family_b, series, size, step):
    """A cup weighed dry: for each material its grams, as weighed, in percent of the
    recipe, and how far that could be off. Every cup has its materials in the order of
    the card's columns, that of the glazes in the plan."""
    recipe, over = {}, {}
    for end, part in zip(ends, [1] if family_b else asked):
        for lines, into in zip(end.made_of, (recipe, over)):
            for name, x in lines:
                into[name] = into.get(name, 0) + part * x * size
    for name, percent in zip(series, asked if family_b else []):
        over[name] = over.get(name, 0) + percent / 100 * size
    recipe, over = ({name: g for name, g in some.items() if g} for some in (recipe, over))
    exact = list(recipe.values()) + list(over.values())
    readings = [0] + [whole(g / step) * step for g in itertools.accumulate(exact)]
    n, us = len(recipe), [step / math.sqrt(12)] * len(readings)
    for k, (name, g) in enumerate(zip(list(recipe) + list(over), exact)):
        part = lambda r: (r[k + 1] - r[k]) / (r[n] - r[0])
        yield name, g, readings[k + 1] - readings[k], 100 * part(readings), off_by(part, readings, us)


def work_out(plan, density):
    """Each cup of a plan: its pours in mL, as measured, how far its shares could be
    off, its recipe grams and its doses, each as (asked grams, measured grams, percent,
    ±); or, weighed dry, its weighings."""
    blend, cup, measure = plan["blend"], plan["cup"], plan.get("measure", {})
    if blend.get("method", "dose") not in ("dose", "weigh"):
        raise NotImplementedError("method " + blend["method"])
    glazes = {g["name"]: g for g in plan["glaze"]}
    family_b = "series" in blend
    ends = [Glaze(glazes[name], density) for name in ([blend["base"]] if family_b else blend["ends"])]
    basis = "dry" if family_b else blend.get("basis", "dry")
    step, unit = amount(measure.get("pour", "5 mL"))
    onto_scale, fill = unit == "g", amount(measure.get("fill", "1 g"))[0]
    dosing = amount(measure.get("fine", measure.get("scale", "0.1 g")))[0]
    cups = percents(blend) if family_b else shares(blend)
    cups += [cups[n - 1] for n in blend.get("repeat", [])]
    if "batch" in cup:  # shared out in whole steps
        if set(measure) & {"dead", "loss"} or onto_scale:
            raise NotImplementedError("a batch less what is lost")
        of, size = "volume", math.floor(amount(cup["batch"])[0] / ends[0].recipe / len(cups) / step + 1e-9) * step
    else:
        of = next(key for key in ("dry", "volume", "weight") if key in cup)
        size = amount(cup[of])[0]
    for asked in cups:
        if blend.get("method") == "weigh":
            names = [s["material"] for s in blend["series"]] if family_b else []
            yield {"weighed": list(weighed(ends, asked, family_b, names, size, dosing))}
            continue
        part = [1] if family_b else asked
        units = [e.unit(basis) for e in ends]
        k = size / sum(p * u[of] for p, u in zip(part, units))
        ml = [k * p * u["volume"] for p, u in zip(part, units)]
        exact = [v * e.rho for v, e in zip(ml, ends)] if onto_scale else ml
        measured = in_steps(exact, step, onto_scale)
        poured = [v / e.rho for v, e in zip(measured, ends)] if onto_scale else measured
        per = [1 / (e.rho if onto_scale else 1) / u["volume"] for u, e in zip(units, ends)]
        off = pours_off(measured, per, step, onto_scale, fill)
        # A dose is a percentage of the recipe in the pour: parts add in squares.
        reading = step / math.sqrt(12)
        of_pour = math.sqrt(2 * reading**2 + fill**2 / 3 if onto_scale else reading**2) / measured[0] if family_b else 0
        recipe = sum(v * e.recipe for v, e in zip(poured, ends))
        doses = []
        for percent in asked if family_b else []:
            g = percent / 100 * recipe
            got = whole(g / dosing) * dosing
            made = 100 * got / recipe
            of_dose = 100 * math.sqrt(2) * dosing / math.sqrt(12) / recipe
            doses.append((g, got, made, 2 * math.hypot(of_dose, made * of_pour) if got else 0))
        yield {"names": [e.name for e in ends], "ml": ml, "measured": measured, "off": off, "recipe_g": recipe, "doses": doses}


def densities(program, plan):
    """Looks up the density of a material: data, not arithmetic."""
    known = {m["name"].lower(): m["density"] for m in plan.get("material", []) if "density" in m}

    def density(name):
        if name.lower() not in known:
            text = subprocess.run([program, "materials", name], capture_output=True, text=True).stdout
            found = re.search(r"([\d.]+) g/mL", text) if name.lower() in text.lower() else None
            known[name.lower()] = float(found[1]) if found else None
        return known[name.lower()]

    return density


def pairs(own, theirs):
    """What is compared of a cup: a name, the figure worked out here, the program's."""
    if "weighed" in own:
        said = {w["material"]: w for w in theirs["weighings"]}
        for name, g, got, percent, off in own["weighed"]:
            for what, right, key in (("", g, "g"), (" weighed", got, "measured_g"), (" in percent", percent, "measured_percent"), (" ±", off, "plus_minus_percent")):
                yield name + what, right, said[name][key]
        return
    yield "recipe_g", own["recipe_g"], (theirs.get("measured") or theirs.get("got"))["recipe_g"]
    pours = {p["glaze"]: p for p in theirs["pours"]}
    none = {"ml": 0, "measured": 0, "plus_minus_percent": 0}
    for name, ml, measured, off in zip(own["names"], own["ml"], own["measured"], own["off"]):
        for what, right, key in (("mL of ", ml, "ml"), ("pour of ", measured, "measured"), ("± of ", off, "plus_minus_percent")):
            yield what + name, right, pours.get(name, none)[key]
    for (g, got, percent, off), dose in zip(own["doses"], theirs["doses"]):
        for what, right, key in (("dose", g, "g"), ("measured dose", got, "measured_g"), ("percent", percent, "measured_percent"), ("± of dose", off, "plus_minus_percent")):
            yield what, right, dose[key]


def main():
    program, wrong, figures, worked = sys.argv[1], 0, 0, 0
    for file in sys.argv[2:]:
        with open(file, "rb") as f:
            plan = tomllib.load(f)
        try:
            cups = list(work_out(plan, densities(program, plan)))
        except NotImplementedError as why:
            print(f"{file}: not worked out here: {why}")
            continue
        worked += 1
        shown = json.loads(subprocess.run([program, "show", file, "--json"], check=True, capture_output=True, text=True).stdout)["cells"]
        if len(cups) != len(shown):
            sys.exit(f"{file}: {len(shown)} cups, {len(cups)} are right")
        for own, theirs in zip(cups, shown):
            for what, right, says in pairs(own, theirs):
                figures += 1
                if abs(right - says) > 2e-6 * max(1, abs(right)):
                    wrong += 1
                    print(f"{file}: cup {theirs['number']}: {what} is {says}, {right} is right")
    print(f"{worked} plans, {figures} figures, {wrong} wrong")
    sys.exit(1 if wrong or not worked else 0)


if __name__ == "__main__":
    main()
