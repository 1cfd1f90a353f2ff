package main

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// cupFlags choose cups, by number or by chemistry.
type cupFlags struct {
	numbers []int
	near    []near
}

// near are values of a fired glaze, and how they were typed.
type near struct {
	text    string
	targets []blend.Target
}

func (c *cupFlags) add(f *pflag.FlagSet) {
	add(f, &c.numbers, "cup", "12,13", func(text string) ([]int, error) {
		numbers := c.numbers
		for _, word := range strings.Split(text, ",") {
			n, err := strconv.Atoi(strings.TrimSpace(word))
			if err != nil {
				const fix = "such as 12 or 12,13; a cup's size goes into --cup-size"
				return nil, fmt.Errorf("%q is not a cup number (%s)", word, fix)
			}
			numbers = append(numbers, n)
		}
		return numbers, nil
	})
	add(f, &c.near, "near", "SiO2:Al2O3=8", func(text string) ([]near, error) {
		targets, err := parseTargets(text)
		return append(c.near, near{text, targets}), err
	})
}

// given reports whether any cup is asked for.
func (c *cupFlags) given() bool { return len(c.numbers)+len(c.near) > 0 }

// choose is the cups asked for, by number from 1, each --near giving one.
func (c *cupFlags) choose(u *ui, t *blend.Test) ([]int, error) {
	cups := c.numbers
	for _, n := range cups {
		if n < 1 || n > len(t.Cells) {
			return nil, usagef("cup %d does not exist (cups are 1 to %d)", n, len(t.Cells))
		}
	}
	for _, wanted := range c.near {
		found, err := t.Nearest(wanted.targets)
		if err != nil {
			return nil, fmt.Errorf("--near %q: %w", wanted.text, err)
		}
		u.note("--near %q: cup %d has %s", wanted.text, found[0].Cup, nearText(wanted.targets, found[0]))
		cups = append(cups, found[0].Cup)
	}
	return cups, nil
}

// goOn is the flags of the commands that go on from cups of a fired test.
type goOn struct {
	overrides
	cupFlags
	asked bool
	log   string // the one whose amounts count, "" for that beside the plan
}

func (g *goOn) add(f *pflag.FlagSet) {
	g.overrides.add(f)
	g.cupFlags.add(f)
	f.BoolVar(&g.asked, "asked", false, "")
	f.StringVar(&g.log, "log", "", "plan-log.xlsx")
}

// from works out a plan, and gives the cups to go on from, by number, with the
// recipes to use: as asked, or as measured into the cups by a log.
func (g *goOn) from(u *ui, plan string) (j *job, cups []int, view blend.View, err error) {
	if j, err = load(plan, g.overrides); err != nil {
		return nil, nil, view, err
	}
	if cups, err = g.choose(u, j.test); err != nil {
		return nil, nil, view, err
	}
	for _, n := range blend.NotesOf[blend.NoGravity](j.test) {
		u.warn(j.file, wording.Note(n))
	}
	if g.asked {
		return j, cups, blend.Asked, nil
	}
	_, err = j.measure(u, g.log)
	return j, cups, blend.Measured, err
}

// parseTargets reads "SiO2:Al2O3=8, unity B2O3=0.3".
func parseTargets(text string) ([]blend.Target, error) {
	var all []blend.Target
	for _, part := range strings.Split(text, ",") {
		name, value, ok := strings.Cut(part, "=")
		x, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
		if !ok || err != nil || !(x > 0 && x < 1e6) {
			return nil, fmt.Errorf(`%q is not a value (such as "SiO2:Al2O3=8", "MgO=4" or "unity B2O3=0.3")`,
				strings.TrimSpace(part))
		}
		target := blend.Target{Value: x}
		name = strings.TrimSpace(name)
		if rest, ok := strings.CutPrefix(strings.ToLower(name), "unity "); ok {
			target.Unity, name = true, rest
		}
		above, below, ratio := strings.Cut(name, ":")
		if target.Oxide, err = oxideNamed(above); err != nil {
			return nil, err
		}
		if ratio {
			if target.Over, err = oxideNamed(below); err != nil {
				return nil, err
			}
		}
		all = append(all, target)
	}
	return all, nil
}

// oxideNamed finds an oxide, however its letters are set.
func oxideNamed(name string) (oxide.Oxide, error) {
	name = strings.TrimSpace(name)
	var names []string
	for _, o := range oxide.Oxides() {
		if strings.EqualFold(string(o), name) {
			return o, nil
		}
		names = append(names, string(o))
	}
	return "", fmt.Errorf("%q is not an oxide%s", name, cmp.Or(didYouMean(name, names), " (such as SiO2 or Al2O3)"))
}

// nearText is what a cup has of the targets: "SiO2:Al2O3 7.96".
func nearText(targets []blend.Target, near blend.Near) string {
	var parts []string
	for i, g := range targets {
		name := string(g.Oxide)
		if g.Over != "" {
			name += ":" + string(g.Over)
		}
		if g.Unity {
			name = "unity " + name
		}
		text := name + " " + quantity.Fixed(near.Values[i], 2)
		if !g.Unity && g.Over == "" {
			text += " %"
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}
