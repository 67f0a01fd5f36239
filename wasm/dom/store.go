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
	page.Get("journal").Call("done", id)
	return nil
}

// Recover keeps what the journal still holds from a visit that ended early, and
// returns how many entries of it cannot be read and were left as they are.
func Recover() (int, error) {
	v, err := await(page.Get("journal").Call("recover"))
	if err != nil {
		return 0, err
	}
	return v.Int(), nil
}

// Bin takes a trace out of the kept ones, Restore brings it back, EmptyBin ends
// that chance.
func Bin(id string) error {
	_, err := store("bin", id)
	return err
}

// Restore brings a trace back from the bin.
func Restore(id string) error {
	_, err := store("restore", id)
	return err
}

// EmptyBin deletes for good what lies in the bin, and what a backup that was taken
// in replaced, unless that was just before this visit began.
func EmptyBin(restored bool) error {
	_, err := store("emptyBin", restored)
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
