package geom

import (
	"strings"
	"testing"
)

func TestParseErrorsNameTheWord(t *testing.T) {
	for text, want := range map[string]string{
		"M 0 0 L 5":           `word 5: "5" has no second coordinate`,
		"M 0 0 L x 1":         `word 5: "x" is no coordinate`,
		"L 0 0":               "word 1: L before M",
		"0 0 L 1 1":           "word 1: a line starts with M",
		"M 0 0 L 1 1 Z L 2 2": "word 7: Z stands only at the end of a line",
		"M 0 0 M 1 1":         "word 4: a second M starts another line",
		"M 0 0 L 1e999 1":     `word 5: "1e999" is no coordinate`,
		"M 0 0 L inf 1":       "word 5: the place (inf, 1) is not finite",
	} {
		if _, err := Parse(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: error %v, want %q", text, err, want)
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Add("M 0 0 L 10 0 L 10 5 Z")
	f.Add("M,1e3 -2L")
	f.Fuzz(func(t *testing.T, text string) {
		pl, err := Parse(text)
		if err != nil {
			return
		}
		again, err := Parse(Format(pl))
		if err != nil || Format(again) != Format(pl) {
			t.Fatalf("%q came back as %q (%v)", Format(pl), Format(again), err)
		}
	})
}
