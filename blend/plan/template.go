package plan

import (
	"bytes"
	"embed"
	"fmt"
	"slices"

	"pourboard/blend"
)

// The templates are plans with a remark beside every key. What all have in
// common stands once, in templates/parts, and is drawn in by "#include NAME".
//
//go:embed templates
var templates embed.FS

// SeriesKinds is the kinds of design that can dose one base.
func SeriesKinds() []blend.Kind {
	return []blend.Kind{blend.Line, blend.Biaxial, blend.Triaxial}
}

// Template is a plan with remarks for a potter to start from: of ends that are
// poured together, or, with series, of one base that is dosed. It passes Read
// as it stands. The error says which kinds there are.
func Template(kind blend.Kind, series bool) ([]byte, error) {
	kinds, name := blend.Kinds(), string(kind)
	if series {
		kinds, name = SeriesKinds(), name+"-series"
	}
	if !slices.Contains(kinds, kind) {
		var names []string
		for _, k := range kinds {
			names = append(names, string(k))
		}
		return nil, fmt.Errorf("there is no plan of kind %q to start from (%s)", kind, meantText(string(kind), names))
	}
	text, err := templates.ReadFile("templates/" + name + ".toml")
	if err != nil {
		return nil, err
	}
	var whole bytes.Buffer
	for line := range bytes.Lines(text) {
		part, included := bytes.CutPrefix(line, []byte("#include "))
		if !included {
			whole.Write(line)
			continue
		}
		text, err := templates.ReadFile("templates/parts/" + string(bytes.TrimSpace(part)) + ".toml")
		if err != nil {
			return nil, err
		}
		whole.Write(text)
	}
	return whole.Bytes(), nil
}
