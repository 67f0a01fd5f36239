package checkhtml

import (
	"slices"
	"strings"
	"testing"

	"unthreaded/game/control"
)

type row struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Cells []cell `json:"cells"`
}

type cell struct {
	ID   string `json:"id"`
	Text string `json:"text"`
}

type common struct {
	Theme string `json:"theme"`
	Title string `json:"title"`
}

type shown struct {
	common
	Speed string `json:"speed"`
	On    bool   `json:"on"`
	Rows  []row  `json:"rows"`
	Inner any    `json:"inner"`

	At map[string]bool `json:"at"`
}

type inner struct {
	Note string `json:"note"`
}

const good = `<main><h1 data-text="title" data-focus="title"></h1>
<button data-send="undo" data-enabled="on">Undo</button>
<button data-send="tool" value="pen">Pen</button><button data-send="tool" value="ruler">Ruler</button>
<input type="range" min="100" max="1200" data-value="speed" data-send="spm">
<input type="checkbox" data-checked="on" data-send="strip">
<p data-show="inner.note" data-text="inner.note"></p>
<input type="file" data-file="open">
<ul data-list="rows"><template><li><button data-send="delete" data-text="name"></button>
  <span data-list="cells"><template><i data-text="text"></i></template></span></li></template></ul>
<section data-show="at.board"><p data-text="board.note"></p><button data-send="board.fold"></button></section><p data-show="at.loft" data-text="loft.note"></p></main>`

func spec() Spec {
	return Spec{
		Controls: []control.Decl{
			{Name: "undo", Kind: control.Press},
			{Name: "tool", Kind: control.Choice, Choices: []string{"pen", "ruler"}},
			{Name: "spm", Kind: control.Number, Min: 100, Max: 1200, Step: 20},
			{Name: "strip", Kind: control.Toggle},
			{Name: "open", Kind: control.File},
			{Name: "delete", Kind: control.Press, OfItem: true},
			{Name: "key", Kind: control.Key},
			{Name: "board.fold", Kind: control.Press},
			{Name: "cancel", Kind: control.Press},
		},
		Scripted: []string{"cancel"},
		Shown:    shown{Inner: inner{}, At: map[string]bool{"board": true, "loft": false}},
		Rooms:    map[string]any{"board": inner{}, "loft": &inner{}},
		Unbound:  []string{"theme"},
		Focus:    []control.Focus{"title"},
	}
}

func TestGoodPage(t *testing.T) {
	if wrong := Check(good, spec()); len(wrong) > 0 {
		t.Error(strings.Join(wrong, "\n"))
	}
}

// Each stray thing is found, and it alone.
func TestStrays(t *testing.T) {
	page := func(old, new string) func(*Spec) string {
		return func(*Spec) string { return strings.Replace(good, old, new, 1) }
	}
	change := func(f func(*Spec)) func(*Spec) string {
		return func(s *Spec) string {
			f(s)
			return good
		}
	}
	for want, stray := range map[string]func(*Spec) string{
		"control undu is not declared\ncontrol undo is sent by nothing on the page":                              page(`"undo"`, `"undu"`),
		`control tool is sent with "chalk", which is none of its choices`:                                        page("</main>", `<button data-send="tool" value="chalk">`),
		`control tool: its choice "rotary" is sent by nothing on the page`:                                       change(func(s *Spec) { s.Controls[1].Choices = []string{"pen", "ruler", "rotary"} }),
		"control spm has max=1200 on the page, declared is 1000":                                                 change(func(s *Spec) { s.Controls[2].Max = 1000 }),
		"control strip is declared as toggle, and its <input type=text> gives text":                              page(`type="checkbox" data-checked="on"`, `type="text"`),
		"control delete concerns an entry of a list and stands in none":                                          page("</main>", `<button data-send="delete">`),
		"control spm is declared twice":                                                                          change(func(s *Spec) { s.Controls = append(s.Controls, s.Controls[2]) }),
		"control drag is sent by a script and not declared":                                                      change(func(s *Spec) { s.Scripted = append(s.Scripted, "drag") }),
		"control spm has a range and takes its max from what is shown":                                           page(`max="1200"`, `data-attr="max:speed"`),
		"data-text names titel, and there is no such field\nfield title is shown nowhere":                        page(`data-text="title"`, `data-text="titel"`),
		"data-text names title, and there is no such field in rows\nfield rows.name is shown nowhere":            page(`data-text="name"`, `data-text="title"`),
		"data-text names name, and there is no such field in rows.cells\nfield rows.cells.text is shown nowhere": page(`data-text="text"`, `data-text="name"`),
		"field theme is shown nowhere":                                                                           change(func(s *Spec) { s.Unbound = nil }),
		"data-checked names speed, which is a string and not a bool":                                             page(`data-checked="on"`, `data-checked="speed"`),
		"data-text names rows, which is no single value":                                                         page("</main>", `<i data-text="rows">`),
		"data-list names title, which is no list of structs\nlist title has no template":                         page("</main>", `<i data-list="title">`),
		`data-attr="speed" is not of the form name:path`:                                                         page("</main>", `<i data-attr="speed">`),
		"focus cloth is nowhere on the page":                                                                     change(func(s *Spec) { s.Focus = append(s.Focus, "cloth") }),
		`data-text="loft.note" stands in what belongs to board`:                                                  page(`data-text="board.note">`, `data-text="board.note"><i data-text="loft.note"></i>`),
		`data-send="board.fold" stands in what belongs to loft`:                                                  page(`data-text="loft.note">`, `data-text="loft.note"><button data-send="board.fold"></button>`),
		"field at.attic is shown nowhere": change(func(s *Spec) {
			s.Shown = shown{Inner: inner{}, At: map[string]bool{"board": true, "loft": true, "attic": true}}
		}),
		"focus title is not declared": change(func(s *Spec) { s.Focus = nil }),
	} {
		s := spec()
		html := stray(&s)
		got := Check(html, s)
		slices.Sort(got)
		lines := strings.Split(want, "\n")
		slices.Sort(lines)
		if !slices.Equal(got, lines) {
			t.Errorf("found\n  %s\nwant\n  %s", strings.Join(got, "\n  "), strings.Join(lines, "\n  "))
		}
	}
}
