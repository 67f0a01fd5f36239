package guard

import (
	"strings"
	"testing"
)

// A panic is an error that names its place; what does not panic is none.
func TestRun(t *testing.T) {
	noted := 0
	Note = func(*Fault) { noted++ }
	defer func() { Note = func(*Fault) {} }()
	done := false
	if f := Run("well", func() { done = true }); f != nil || !done {
		t.Errorf("%v, done: %v", f, done)
	}
	var empty []int
	f := Run("scoring", func() { _ = empty[len(empty)] })
	if f == nil || noted != 1 || !strings.Contains(f.Error(), "in scoring: runtime error: index out of range") {
		t.Errorf("%v, noted %d times", f, noted)
	}
}
