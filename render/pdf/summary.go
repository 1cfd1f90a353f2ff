package pdf

// summary says what the test is, how well it can be measured, and what to take
// care of.
func (s *sheets) summary() {
	f := s.begin("")
	s.notes(f)
	f.longTexts()
}

// notes are the warnings of the plan and of the test, each once.
func (s *sheets) notes(f *flow) {
	var texts []string
	seen := map[string]bool{}
	for _, n := range append(s.Notes[:len(s.Notes):len(s.Notes)], s.test.Warnings...) {
		if text := n.String(); !seen[text] {
			seen[text] = true
			texts = append(texts, text)
		}
	}
	if len(texts) == 0 {
		return
	}
	f.subheading("To know before mixing")
	f.items("–", texts, regular(benchPt))
}
