//go:build js

package dom

import (
	"bytes"
	"syscall/js"
)

// The functions of this file block until the browser has answered; call them from
// a goroutine of their own. Documents are JSON texts.

func store(method string, args ...any) (js.Value, error) {
	return await(page.Get("store").Call(method, args...))
}

// List returns the summaries of n kept traces, the newest of those before a name, and
// the name before which there are more, empty for none. They cross over as one text,
// since each value that crosses by itself costs as much as hundreds of letters.
func List(n int, before string) (docs [][]byte, more string, err error) {
	v, err := store("newest", n, before)
	if err != nil || v.Index(0).Length() == 0 {
		return nil, "", err
	}
	text := v.Index(0).Call("join", "\n").String()
	return bytes.Split([]byte(text), []byte("\n")), v.Index(1).String(), nil
}

// Get returns a kept trace, nil where there is none.
func Get(id string) ([]byte, error) {
	v, err := store("get", id)
	if err != nil || v.IsNull() {
		return nil, err
	}
	return []byte(v.String()), nil
}

// Journal writes a trace down at once, for the case that the page goes away
// before Put has kept it.
func Journal(id string, doc, summary []byte) {
	page.Get("journal").Call("write", id, string(doc), string(summary))
}

// Put keeps a trace and its summary, both or neither, and takes it out of the
// journal.
func Put(id string, doc, summary []byte) error {
	if _, err := store("put", id, string(doc), string(summary)); err != nil {
		return err
	}
	JournalDone(id)
	return nil
}

// PutPieces keeps a trace that was put together of the pieces that a tab left.
func PutPieces(p Pieces, doc, summary []byte) error {
	_, err := store("put", p.ID, string(doc), string(summary), p.Tab)
	return err
}

// JournalDone takes a trace out of what Journal wrote.
func JournalDone(name string) { page.Get("journal").Call("done", name) }

// Jot writes a piece of what is in hand down, over the one of the same number, Unjot takes
// all of them away. Neither waits, and the browser keeps their order.
func Jot(id string, n int, doc []byte) { page.Get("journal").Call("jot", id, n, string(doc)) }

// Unjot takes what was written down of what is in hand away.
func Unjot(id string) { page.Get("journal").Call("unjot", id) }

// Drop takes pieces that a tab left away.
func (p Pieces) Drop() { page.Get("journal").Call("unjot", p.ID, p.Tab) }

// Entry is what Journal or JournalThing wrote in a visit that ended before it was kept: a
// thing where there is a Kind, else a trace. A damaged one has a Name only.
type Entry struct {
	Name, Kind, ID string
	Doc, Summary   []byte
}

// Pieces are what a tab that is no more wrote down of what it had in hand.
type Pieces struct {
	Tab, ID string
	Docs    [][]byte
}

// Left returns what tabs that are no more left in the journal.
func Left() ([]Entry, []Pieces, error) {
	v, err := await(page.Get("journal").Call("left"))
	if err != nil {
		return nil, nil, err
	}
	var entries []Entry
	for i := range v.Index(0).Length() {
		e := v.Index(0).Index(i)
		at := func(k int) string { return e.Index(k).String() }
		entries = append(entries, Entry{Name: at(0), Kind: at(1), ID: at(2), Doc: []byte(at(3)), Summary: []byte(at(4))})
	}
	var pieces []Pieces
	for i := range v.Index(1).Length() {
		e := v.Index(1).Index(i)
		p := Pieces{Tab: e.Index(0).String(), ID: e.Index(1).String()}
		for k := range e.Index(2).Length() {
			p.Docs = append(p.Docs, []byte(e.Index(2).Index(k).String()))
		}
		pieces = append(pieces, p)
	}
	return entries, pieces, nil
}

// Bin takes a trace out of the kept ones, Restore brings it back, EmptyBin ends
// that chance.
func Bin(id string) error {
	_, err := store("bin", id)
	return err
}

// Restore brings a trace back from the bin, and tells whether it is kept then.
func Restore(id string) (bool, error) {
	v, err := store("restore", id)
	if err != nil {
		return false, err
	}
	return v.Truthy(), nil
}

// EmptyBin deletes for good what lies in the bin, and what a backup that was taken
// in replaced, unless that was just before this visit began, or another tab may still want
// it.
func EmptyBin(restored bool) error {
	_, err := store("emptyBin", restored)
	return err
}

// MakeRoom gives up all that could be taken back, here and in other tabs.
func MakeRoom() error {
	_, err := store("makeRoom")
	return err
}

// Settings returns the kept settings, empty where there are none.
func Settings() ([]byte, error) {
	v, err := store("settings")
	if err != nil {
		return nil, err
	}
	return []byte(v.String()), nil
}

// PutSettings keeps the settings.
func PutSettings(doc []byte) error {
	_, err := store("putSettings", string(doc))
	return err
}

// Persist asks the browser to keep what is stored for good.
func Persist() (bool, error) {
	v, err := store("persist")
	if err != nil {
		return false, err
	}
	return v.Truthy(), nil
}

// Persisted tells whether the browser has promised that, without asking.
func Persisted() bool {
	v, err := store("persisted")
	return err == nil && v.Truthy()
}

// PutSummary keeps a summary over the one of a kept trace; where that is not kept any
// more, it does nothing.
func PutSummary(id string, summary []byte) error {
	_, err := store("putSummary", id, string(summary))
	return err
}
