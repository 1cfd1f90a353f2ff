package main

import (
	"os/exec"
	"strings"
	"testing"
)

// Every module that is linked into the program has its licence in it.
func TestLicencesOfEveryModule(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "-f",
		"{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}{{end}}{{end}}", ".").Output()
	if err != nil {
		t.Fatal(err)
	}
	modules := strings.Fields(strings.ReplaceAll(string(out), " ", "@"))
	if len(modules) < 8 {
		t.Fatalf("only %d modules were listed", len(modules))
	}
	for _, module := range modules {
		heading := "\n" + strings.Replace(module, "@", " ", 1) + "\n="
		if !strings.Contains(licences, heading) {
			t.Errorf("%s has no licence in licences.txt: run bash .ci/licences > cmd/pourboard/licences.txt", module)
		}
	}
}
