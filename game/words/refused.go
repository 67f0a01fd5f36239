package words

import "errors"

// Refused is an error that a person is told: why something cannot be.
type Refused struct{ Said Msg }

// Refuse returns the error of a message.
func Refuse(key string, args ...any) error { return &Refused{Of(key, args...)} }

// Error returns the message in English.
func (r *Refused) Error() string { return Book{}.Write(r.Said) }

var notDone = Refuse("page.not-done").(*Refused)

// Why returns what a person is told of an error: its message if it is Refused, else that
// it could not be done. What other errors say is for programmers.
func Why(err error) Msg {
	var r *Refused
	if errors.As(err, &r) {
		return r.Said
	}
	return notDone.Said
}
