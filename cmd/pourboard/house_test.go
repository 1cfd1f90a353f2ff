package main

import (
	"os/exec"
	"strings"
	"testing"
)

// Imports run one way, cmd → render → layout → blend, and each outside library
// is used in one room only.
func TestImportsRunOneWay(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "pourboard/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	floor := func(path string) int {
		switch rest := strings.TrimPrefix(path, "pourboard/"); {
		case strings.HasPrefix(rest, "cmd"):
			return 4
		case strings.HasPrefix(rest, "render"):
			return 3
		case strings.HasPrefix(rest, "layout"):
			return 2
		case rest == "blend/plan" || rest == "blend/record" || rest == "blend/results" || rest == "blend/book" || rest == "blend/record/recordtest":
			return 1
		}
		return 0
	}
	ground := map[string]bool{"xlsx": true, "page": true, "wording": true}
	rooms := map[string]string{
		"github.com/spf13/pflag":       "pourboard/cmd/",
		"github.com/signintech/gopdf":  "pourboard/render/page",
		"github.com/tealeg/xlsx":       "pourboard/render/xlsx",
		"github.com/pelletier/go-toml": "pourboard/blend/plan",
		"gonum.org":                    "pourboard/blend/mixmodel",
		"golang.org/x/text":            "pourboard/blend/",
		"github.com/go-fonts":          "pourboard/render/page",
		"golang.org/x/image":           "pourboard/render/page",
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) < 12 {
		t.Fatalf("only %d packages were listed", len(lines))
	}
	for _, line := range lines {
		words := strings.Fields(line)
		from := words[0]
		for _, to := range words[1:] {
			if strings.HasPrefix(to, "pourboard/") {
				up := floor(to) > floor(from)
				// Renderers do not import each other, only the ground they share.
				twin := floor(from) == 3 && floor(to) == 3 && !ground[strings.TrimPrefix(to, "pourboard/render/")]
				if up || twin {
					t.Errorf("%s imports %s", from, to)
				}
			}
			for library, room := range rooms {
				if strings.HasPrefix(to, library) && !strings.HasPrefix(from, room) {
					t.Errorf("%s imports %s, which belongs to %s", from, to, room)
				}
			}
			if floor(from) < 3 && !strings.HasSuffix(from, "test") && (to == "os" || to == "net/http" || to == "time") {
				t.Errorf("%s imports %s: what is below render reads no file and no clock", from, to)
			}
		}
	}
}
