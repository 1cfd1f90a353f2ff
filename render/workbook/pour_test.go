package workbook

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/plan"
)

// testPlans are the plans in testdata, by name.
func testPlans(t testing.TB) map[string]*blend.Plan {
	t.Helper()
	files, err := filepath.Glob("../../testdata/plans/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no plans: %v", err)
	}
	plans := map[string]*blend.Plan{}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		p, _, err := plan.Read(filepath.Base(file), src)
		if err != nil {
			t.Fatal(err)
		}
		plans[strings.TrimSuffix(filepath.Base(file), ".toml")] = p
	}
	return plans
}

func pourOf(t testing.TB, p *blend.Plan) []byte {
	t.Helper()
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	warnings, err := WritePour(&out, test)
	if err != nil || len(warnings) > 0 {
		t.Fatalf("%v, warnings %q", err, warnings)
	}
	return out.Bytes()
}
