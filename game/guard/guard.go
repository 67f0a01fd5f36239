// Package guard keeps a fault in the program from taking the page down: what panics is
// ended, noted, and costs its own result alone.
package guard

import (
	"fmt"
	"runtime/debug"
)

// Fault is a panic that was caught: where the program was, and what it said.
type Fault struct {
	In    string
	Value any
	Stack []byte
}

// Error names the place and the panic.
func (f *Fault) Error() string { return fmt.Sprintf("a fault of the program in %s: %v", f.In, f.Value) }

// Note is told of every fault; the page writes it to the browser's console. Set it before
// anything runs.
var Note = func(*Fault) {}

// Run runs f and returns a Fault if it panics, else nil. What f had done until then stays
// done: let it work on copies.
func Run(in string, f func()) (fault *Fault) {
	defer func() {
		if v := recover(); v != nil {
			fault = &Fault{In: in, Value: v, Stack: debug.Stack()}
			Note(fault)
		}
	}()
	f()
	return nil
}
