package words_test

import (
	"testing"

	"unthreaded/game/words"
	"unthreaded/path/motif"
)

// Whatever the library has to offer has its words: a motif its name and how it is sewn,
// each of its measures and each choice.
func TestMotifsHaveWords(t *testing.T) {
	names := map[string]string{}
	for _, m := range motif.Ready() {
		name, note := words.Motif(m.ID)
		if name == "" || note == "" || names[name] != "" {
			t.Errorf("%s: name %q, note %q, which %q has too", m.ID, name, note, names[name])
		}
		names[name] = m.ID
		if (words.Book{}).MotifUnit(m.ID) == "part" {
			t.Errorf("%s is rehearsed in parts", m.ID)
		}
		measures := map[string]bool{}
		var params []motif.Param // of all the ways in which it was drawn
		for version := 1; version <= m.Version; version++ {
			if old, ok := m.In(version); !ok {
				t.Errorf("%s is not there in version %d", m.ID, version)
			} else if version == m.Version {
				params = append(params, old.Params...)
			}
			old, _ := m.In(version)
			for _, p := range old.Params {
				if (words.Book{}).MotifParam(m.ID, p.ID) == "" {
					t.Errorf("%s, version %d: the measure %s has no name", m.ID, version, p.ID)
				}
			}
		}
		for _, p := range params {
			name := words.Book{}.MotifParam(m.ID, p.ID)
			if name == "" || measures[name] {
				t.Errorf("%s: the measure %s is called %q, or two are", m.ID, p.ID, name)
			}
			measures[name] = true
			choices := map[string]bool{}
			for _, c := range p.Choices {
				if text := (words.Book{}).MotifChoice(m.ID, p.ID, c); text == "" || choices[text] {
					t.Errorf("%s: the choice %s of %s is called %q, or two are", m.ID, c, p.ID, text)
				} else {
					choices[text] = true
				}
			}
		}
	}
	for _, e := range motif.Exercises {
		r, err := e.Rehearsal(30)
		if err != nil {
			t.Fatal(err)
		}
		if name, note := words.Motif(r.ID); name == "" || note == "" {
			t.Errorf("%s: name %q, note %q", r.ID, name, note)
		}
	}
	if name, _ := words.Motif("exercise-corners-30"); name != "Warm-up: corners (30 mm)" {
		t.Errorf("an exercise is called %q", name)
	}
	for _, id := range []string{"", "route-a-b", "exercise-corners-x", "exercise-none-3"} {
		if name, _ := words.Motif(id); name != "" {
			t.Errorf("%q is called %q", id, name)
		}
	}
}

// Each piece of each motif, in all shapes and ways, has words in the place of its code.
func TestPiecesHaveWords(t *testing.T) {
	named := func(of string, pieces []motif.Piece) {
		t.Helper()
		for _, p := range pieces {
			if _, ok := words.Piece(p.Name).(words.Msg); !ok {
				t.Errorf("%s: %q has no words", of, p.Name)
			}
		}
	}
	for _, m := range motif.Ready() {
		for _, k := range []motif.ShapeKind{motif.Square, motif.Hexagon, motif.Circle} {
			if pieces, err := m.Fit(motif.Shape{Kind: k, W: 150}, 3, nil); err == nil {
				named(m.ID, pieces)
			}
		}
		if laid, err := m.Around(motif.Border{W: 1500, H: 1800, Width: 100}, 3, nil); err == nil {
			named(m.ID, laid.Pieces)
		}
	}
	for _, w := range motif.Works() {
		named(w.ID, w.Pieces())
	}
	if got := words.Piece("Aunt Ida's 3 leaves"); got != "Aunt Ida's 3 leaves" {
		t.Errorf("her own name became %v", got)
	}
	if got := (words.Book{}).Write(words.Piece("line (2)").(words.Msg)); got != "line 2" {
		t.Errorf("the second line of a name is %q", got)
	}
}
