package main

import (
	"io"
	"unicode/utf8"

	"pourboard/blend/readable"
)

// shown is where the program speaks: what plans, logs, file names and flags hold
// reaches no terminal as a control character.
type shown struct {
	to   io.Writer
	rest []byte // the beginning of a character, its end is still to come
}

// Write passes p on with its hidden characters written out.
func (s *shown) Write(p []byte) (int, error) {
	text := append(s.rest, p...)
	whole := len(text)
	for i := 1; i < utf8.UTFMax && i <= len(text); i++ {
		if last := text[len(text)-i:]; utf8.RuneStart(last[0]) {
			if !utf8.FullRune(last) {
				whole -= i
			}
			break
		}
	}
	s.rest = append([]byte(nil), text[whole:]...)
	if _, err := io.WriteString(s.to, readable.Text(string(text[:whole]))); err != nil {
		return 0, err
	}
	return len(p), nil
}
