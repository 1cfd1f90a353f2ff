package main

import (
	"fmt"
	"strings"

	"pourboard/blend/plan"
)

func newCommand() command {
	return command{
		name: "new",
		line: "write a new plan",
		help: `Usage:  pourboard new KIND [FLAGS]

Writes a plan to start from. Without flags, it explains every key. With flags,
it has your figures, and --make makes the sheets at once.

KIND is one of
` + kindsHelp() + `
  --glaze NAME        an end glaze (repeat for each)
  --base NAME         the base of all cups
  --colourant NAME=0,0.5,1,2
                      a colourant and its percentages (repeat for each);
                      in a triaxial the highest, NAME=4
  --cups N            number of cups of a line, triaxial or quadraxial
  --divisions N       steps along each side, instead of --cups
  --batch "1000 g"    dry glaze mixed once and shared between all cups
  --cup-size SIZE     in each cup: "100 mL", or "100 g" of dry glaze
  --jug "5 mL"        smallest mark of your jug
  --scale "0.1 g"     smallest step of your scale
  --bodies "A, B"     clay bodies of the tiles
  --tile SIZE         size of a tile: "50 x 100 mm" or "2 x 4 in"
  --paper PAPER       A4, Letter, ... or "300 x 420 mm"
  --title TITLE, --mark MR
                      name of the test; what is painted on its tiles
  --make              make the sheets and the workbooks
  -o, --output FILE   file to write, instead of KIND.toml; - prints it
  -q, --quiet         no notes

Example:

  pourboard new triaxial -o ash.toml
  pourboard new triaxial --glaze Shino --glaze Celadon --glaze Tenmoku \
    --divisions 4 --cup-size "100 mL" --jug "5 mL" --make
`,
		run: runNew,
	}
}

func kindsHelp() string {
	var b strings.Builder
	for _, d := range plan.Designs() {
		fmt.Fprintf(&b, "  %-17s %s\n", d.Name, d.Line)
	}
	return b.String()
}

func runNew(u *ui, args []string) error {
	f := flags("new")
	var a plan.Answers
	f.StringArrayVar(&a.Glazes, "glaze", nil, "")
	f.StringArrayVar(&a.Colourants, "colourant", nil, "")
	for name, to := range map[string]*string{
		"base": &a.Base, "cups": &a.Cups, "divisions": &a.Divisions, "batch": &a.Batch, "cup-size": &a.CupSize,
		"jug": &a.Jug, "scale": &a.Scale, "bodies": &a.Bodies, "tile": &a.Tile, "paper": &a.Paper, "title": &a.Title, "mark": &a.Mark,
	} {
		f.StringVar(to, name, "", "")
	}
	withSheets := f.Bool("make", false, "")
	output := f.StringP("output", "o", "", "")
	args, err := u.parse(f, args, "a kind")
	if err != nil {
		return err
	}
	design, err := plan.FindDesign(args[0])
	if err != nil {
		return usagef("unknown kind %q%s", args[0], nearestOrAll(args[0], startNames(), "choose from"))
	}
	answered := 0
	for _, name := range []string{"glaze", "colourant", "base", "cups", "divisions", "batch", "cup-size", "jug", "scale", "bodies", "tile", "paper", "title", "mark"} {
		if f.Changed(name) {
			answered++
		}
	}
	text, err := startText(design, a, answered > 0)
	if err != nil {
		return usagef("%s", err)
	}
	name := *output
	if name == "" {
		name = design.Name + ".toml"
	}
	if name == "-" && *withSheets {
		return usagef("--make needs a file for the plan (leave out -o -)")
	}
	if err := u.writeStart(name, text, *withSheets); err != nil {
		return err
	}
	if a.Base != "" && name != "-" {
		u.note("%s: note: specific-gravity = %v assumed (weigh 100 mL of %s and put yours into the plan)", name, plan.AssumedSG, a.Base)
	}
	if *withSheets {
		return makeOne(u, name)
	}
	return nil
}

// makeOne makes the sheets and workbooks of a plan beside it.
func makeOne(u *ui, name string) error {
	args := []string{name}
	if u.quiet {
		args = append(args, "--quiet")
	}
	return runMake(u, args)
}

// startText is a plan to start from, with the answers of the flags where there
// are any.
func startText(design plan.Design, a plan.Answers, answered bool) ([]byte, error) {
	if answered {
		return plan.New(design, a)
	}
	return plan.Template(design.Name)
}

// writeStart writes a new plan to a file, or prints it.
func (u *ui) writeStart(name string, text []byte, making bool) error {
	if name == "-" {
		u.print(string(text))
		return nil
	}
	if err := createFile(name, text, byOutput); err != nil {
		return err
	}
	if making {
		u.printf("%s written\n", name)
	} else {
		u.printf("%s written; change it, then run: pourboard check %s\n", name, name)
	}
	return nil
}
