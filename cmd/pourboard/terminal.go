package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"syscall"
	"unicode/utf8"

	"pourboard/blend/readable"
)

// shown is where the program speaks: what plans, logs, file names and flags hold
// reaches no terminal as a control character. It remembers that something could not
// be written, onto a disk that is full, say.
type shown struct {
	to   io.Writer
	rest []byte // the beginning of a character, its end is still to come
	err  error
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
	if s.err == nil {
		_, s.err = io.WriteString(s.to, readable.Text(string(text[:whole])))
	}
	return len(p), s.err
}

// failed is err, or that something could not be written.
func (s *shown) failed(err error) error {
	if s.err == nil || err != nil && !errors.Is(err, s.err) || errors.Is(s.err, syscall.EPIPE) {
		return cmp.Or(err, s.err)
	}
	return fmt.Errorf("pourboard: output incomplete: %s", reasonOf(s.err))
}
