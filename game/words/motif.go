package words

import (
	"strconv"
	"strings"
)

// Motif returns the name of a ready motif or an exercise and how it is sewn; both are
// empty for any other ID.
func (b Book) Motif(id string) (name, note string) {
	if part := strings.Split(id, "-"); len(part) == 3 && part[0] == "exercise" {
		if mm, err := strconv.ParseFloat(part[2], 64); err == nil && Has("motif.exercise."+part[1]) {
			name := b.Say("motif.exercise." + part[1])
			return b.Say("motif.warm-up", name, Decimal{mm, 0}), b.Say("motif.exercise-note." + part[1])
		}
	}
	if !Has("motif.name." + id) {
		return "", ""
	}
	return b.Say("motif.name." + id), b.Say("motif.note." + id)
}

// Piece names a piece of a drawing as the message for the code that the library of motifs
// gives it, such as "row 2, star 3"; any other name is one that she gave, and stands as it is.
func Piece(name string) any {
	var numbers []any
	var parts []string
	for _, word := range strings.FieldsFunc(name, func(r rune) bool { return strings.ContainsRune(" -,()", r) }) {
		if n, err := strconv.Atoi(word); err == nil {
			numbers = append(numbers, n)
		} else {
			parts = append(parts, word)
		}
	}
	if len(numbers) > 0 {
		parts = append(parts, "n")
	}
	kind := strings.Join(parts, "-")
	e := find(English, "motif.piece."+kind)
	if e == nil {
		return name
	}
	if m, err := e.message(); err != nil || m.arity != len(numbers) {
		return name
	}
	return Of("motif.piece."+kind, numbers...)
}

// MotifUnit returns what the repeats of a line are called where it is rehearsed, in the
// plural; a line of her own is a part.
func (b Book) MotifUnit(id string) string { return b.Say("motif.unit." + motifUnit(id)) }

// MotifCount returns so many repeats of a line: "3 swirls".
func (b Book) MotifCount(id string, n int) string { return b.Say("motif.count."+motifUnit(id), n) }

// MotifNth names one repeat of a line by its number, from 1: "swirl 3".
func (b Book) MotifNth(id string, n int) string { return b.Say("motif.nth."+motifUnit(id), n) }

func motifUnit(id string) string {
	switch {
	case Has("motif.unit." + id):
		return id
	case Has("motif.name." + id):
		return "repeats"
	}
	return "part"
}

// MotifParam returns the name of a measure of a motif, "" for an unknown one.
func (b Book) MotifParam(motif, param string) string {
	if id := ofMotif("motif.param.", motif, param); id != "" {
		return b.Say("motif.param." + id)
	}
	return ""
}

// MotifChoice returns the words of one of the choices of a measure of a motif, "" for an
// unknown one.
func (b Book) MotifChoice(motif, param, choice string) string {
	if id := ofMotif("motif.choice.", motif, param+"."+choice); id != "" {
		return b.Say("motif.choice." + id)
	}
	return ""
}

// ofMotif returns under which key something is said of one motif, or else of all; "" if
// it is not.
func ofMotif(prefix, motif, id string) string {
	switch {
	case Has(prefix + motif + "." + id):
		return motif + "." + id
	case Has(prefix + id):
		return id
	}
	return ""
}

// Motif is Book.Motif in English, as it stands in documents.
func Motif(id string) (name, note string) { return Book{}.Motif(id) }
