package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"pourboard/blend"
	"pourboard/blend/oxide"
)

// cupFlags choose cups, by number or by chemistry.
type cupFlags struct {
	numbers []string
	near    []string
}

func (c *cupFlags) add(f *pflag.FlagSet) {
	f.StringSliceVar(&c.numbers, "cup", nil, "")
	f.StringArrayVar(&c.near, "near", nil, "")
}

// nearHelp is the part of a help text that is about --near.
const nearHelp = `  --near CHEMISTRY  the cup nearest to a value, instead of --cup:
                    "SiO2:Al2O3=8" (mol), "MgO=4" (weight %),
                    "unity B2O3=0.3", or several with commas
`

// given reports whether any cup is asked for.
func (c *cupFlags) given() bool { return len(c.numbers)+len(c.near) > 0 }

// choose is the cups asked for, by number from 1, each --near giving one.
func (c *cupFlags) choose(u *ui, t *blend.Test) ([]int, error) {
	var cups []int
	for _, text := range c.numbers {
		n, err := strconv.Atoi(strings.TrimSpace(text))
		if err != nil {
			if strings.ContainsAny(text, "gGlL") {
				return nil, usagef("--cup %q is not a cup number (for another cup size: --cup-size %q)", text, text)
			}
			return nil, usagef("--cup %q is not a cup number (such as --cup 12 or --cup 12,13)", text)
		}
		if n < 1 || n > len(t.Cells) {
			return nil, usagef("cup %d does not exist (cups are 1 to %d)", n, len(t.Cells))
		}
		cups = append(cups, n)
	}
	for _, text := range c.near {
		targets, err := parseTargets(text)
		if err != nil {
			return nil, err
		}
		near, err := t.Nearest(targets)
		if err != nil {
			return nil, fmt.Errorf("--near %q: %w", text, err)
		}
		u.note("--near %q: cup %d has %s", text, near[0].Cup, nearText(targets, near[0]))
		cups = append(cups, near[0].Cup)
	}
	return cups, nil
}

// parseTargets reads "SiO2:Al2O3=8, unity B2O3=0.3".
func parseTargets(text string) ([]blend.Target, error) {
	var all []blend.Target
	for _, part := range strings.Split(text, ",") {
		name, value, ok := strings.Cut(part, "=")
		x, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
		if !ok || err != nil || !(x > 0 && x < 1e6) {
			return nil, usagef(`--near %q is not a value (such as "SiO2:Al2O3=8", "MgO=4" or "unity B2O3=0.3")`, strings.TrimSpace(part))
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
	list := oxide.Oxides()
	at := slices.IndexFunc(list, func(o oxide.Oxide) bool { return strings.EqualFold(string(o), name) })
	if at < 0 {
		var names []string
		for _, o := range list {
			names = append(names, string(o))
		}
		fix := didYouMean(name, names)
		if fix == "" {
			fix = " (such as SiO2 or Al2O3)"
		}
		return "", usagef("--near: %q is not an oxide%s", name, fix)
	}
	return list[at], nil
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
		text := name + " " + strconv.FormatFloat(near.Values[i], 'f', 2, 64)
		if !g.Unity && g.Over == "" {
			text += " %"
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}
