package control

import (
	"cmp"
	"slices"
)

// Bound is a control with what it does to a state S. Whatever else shall happen is part
// of S.
type Bound[S any] struct {
	Decl
	Do func(S, Event) S
}

// Table holds controls by their names.
type Table[S any] map[string]Bound[S]

// NewTable returns the table of some controls. It panics on a name that stands twice and
// on a control that does nothing: mistakes of the program, made when it starts.
func NewTable[S any](controls ...Bound[S]) Table[S] {
	t := Table[S]{}
	for _, c := range controls {
		if _, twice := t[c.Name]; twice || c.Name == "" || c.Do == nil {
			panic("control: " + c.Name + " stands twice or does nothing")
		}
		t[c.Name] = c
	}
	return t
}

// Do returns the state after what was sent. The error is an *Error, and the state is
// then what it was.
func (t Table[S]) Do(s S, sent Sent) (S, error) {
	c, known := t[sent.Name]
	if !known {
		return s, &Error{Decl{Name: sent.Name}, sent.Value, Unknown}
	}
	e, err := c.Read(sent)
	if err != nil {
		return s, err
	}
	return c.Do(s, e), nil
}

// Decls returns the declarations, by name.
func (t Table[S]) Decls() []Decl {
	var out []Decl
	for _, c := range t {
		out = append(out, c.Decl)
	}
	slices.SortFunc(out, func(a, b Decl) int { return cmp.Compare(a.Name, b.Name) })
	return out
}

// Focus is the name of a place on the page to which the keyboard can be led, as its
// data-focus has it.
type Focus string
