#!/usr/bin/env python3
"""An independent recomputation of a test, written from the design and not from
the program: what each cup is poured and dosed, and what that makes of it.

    engine.py pourboard PLAN...

reads each plan, works it out, and compares every figure with what
`pourboard show --json` says. The relation between specific gravity and dry
content is the one commonly credited to Brongniart; rounding is by whole steps,
the largest remainder first, halves away from zero.
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
        self.name, self.over = glaze["name"], sum(part for _, part in additions) / 100 if recipe else 0
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


def work_out(plan, density):
    """Each cup of a plan: its pours in mL, as measured, its recipe grams and
    its doses, each as (asked grams, measured grams, percent)."""
    blend, cup, measure = plan["blend"], plan["cup"], plan.get("measure", {})
    if blend.get("method", "dose") != "dose":
        raise NotImplementedError("method " + blend["method"])
    if not set(cup) & {"dry", "volume", "weight"}:
        raise NotImplementedError("a batch shared out")
    glazes = {g["name"]: g for g in plan["glaze"]}
    family_b = "series" in blend
    ends = [Glaze(glazes[name], density) for name in ([blend["base"]] if family_b else blend["ends"])]
    basis = "dry" if family_b else blend.get("basis", "dry")
    of = next(key for key in ("dry", "volume", "weight") if key in cup)
    size = amount(cup[of])[0]
    step, unit = amount(measure.get("pour", "5 mL"))
    dosing = amount(measure.get("fine", measure.get("scale", "0.1 g")))[0]
    cups = percents(blend) if family_b else shares(blend)
    cups += [cups[n - 1] for n in blend.get("repeat", [])]
    for asked in cups:
        part = [1] if family_b else asked
        units = [e.unit(basis) for e in ends]
        k = size / sum(p * u[of] for p, u in zip(part, units))
        ml = [k * p * u["volume"] for p, u in zip(part, units)]
        exact = [v * e.rho for v, e in zip(ml, ends)] if unit == "g" else ml
        measured = in_steps(exact, step, unit == "g")
        poured = [v / e.rho for v, e in zip(measured, ends)] if unit == "g" else measured
        recipe = sum(v * e.recipe for v, e in zip(poured, ends))
        doses = []
        for percent in asked if family_b else []:
            g = percent / 100 * recipe
            got = whole(g / dosing) * dosing
            doses.append((g, got, 100 * got / recipe if recipe else 0))
        yield {"names": [e.name for e in ends], "ml": ml, "measured": measured, "recipe_g": recipe, "doses": doses}


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
            pours = {p["glaze"]: p for p in theirs["pours"]}
            none = {"ml": 0, "measured": 0}
            pairs = [("recipe_g", own["recipe_g"], (theirs.get("measured") or theirs.get("got"))["recipe_g"])]
            for name, ml, measured in zip(own["names"], own["ml"], own["measured"]):
                pairs += [("mL of " + name, ml, pours.get(name, none)["ml"]), ("pour of " + name, measured, pours.get(name, none)["measured"])]
            for (g, got, percent), dose in zip(own["doses"], theirs["doses"]):
                pairs += [("dose", g, dose["g"]), ("measured dose", got, dose["measured_g"]), ("percent", percent, dose["measured_percent"])]
            for what, right, says in pairs:
                figures += 1
                if abs(right - says) > 2e-6 * max(1, abs(right)):
                    wrong += 1
                    print(f"{file}: cup {theirs['number']}: {what} is {says}, {right} is right")
    print(f"{worked} plans, {figures} figures, {wrong} wrong")
    sys.exit(1 if wrong or not worked else 0)


if __name__ == "__main__":
    main()
