package page_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/control"
	"unthreaded/game/control/checkhtml"
	"unthreaded/game/page"
	"unthreaded/game/place"
	"unthreaded/game/place/draw"
	"unthreaded/game/place/quilt"
	"unthreaded/game/worktest"
)

// wholePage is the HTML of the page with all its parts.
func wholePage(t *testing.T) string {
	const site = "../../wasm/site/"
	read := func(name string) string {
		text, err := os.ReadFile(filepath.Join(site, name))
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	return regexp.MustCompile(`<!-- part (\S+) -->`).ReplaceAllStringFunc(read("index.html"), func(line string) string {
		return read("parts/" + strings.Fields(line)[2] + ".html")
	})
}

// The page has an element for each control, shows all that is said of it, and names nothing
// else; what belongs to one place names nothing of another.
func TestThePageAndTheProgramAgree(t *testing.T) {
	m, html := game.New(game.DefaultSettings(), 1e12), wholePage(t)
	m, _ = worktest.Update(m, laptop)
	m, _ = worktest.Update(m, game.Shelf{})
	all := page.Of(m)
	spec := checkhtml.Spec{
		Rooms:    map[string]any{},
		Scripted: []string{"cancel", "backup-check", "route.awake"}, // the key Escape, a file that is chosen, the screen that goes dark
		Focus: []control.Focus{draw.PickFocus, quilt.DesignsFocus, quilt.LayoutFocus, place.ClothFocus, "play",
			"back-sewn", "back-session", "back-sewn-day", "back-sewn-stitches", "back-sewn-length", "back-sewn-spm", "back-sewn-keep"},
		Unbound: []string{
			// The scripts read these, and the style of the page.
			"lang", "clothLabel", "scheme", "fabric", "tracing", "hasTrace", "focus.to", "focus.n", "place", "keys", "wheel", "room", "rehearse.practise.mode",
			// A row of a list has a value and a note, a trouble a field: some have no use for them.
			"back.method.value", "back.machine.sure.value", "back.machine.bad.keep", "rehearse.pastOther.open",
			"machine.cautions.note", "machine.against.note", "machine.changes.note", "machine.due.note", "machine.rows.note",
		},
	}
	sends := func(name string) bool {
		return regexp.MustCompile(`data-(send|file|photo)="` + regexp.QuoteMeta(name) + `"`).MatchString(html)
	}
	var ofRooms []string
	for _, n := range game.Places {
		m, _ = worktest.Update(m, game.Control{Name: "place", Value: string(n)})
		all.At[n] = true
		spec.Rooms[string(n)] = m.Front().Page().In
		for _, d := range m.Front().Controls() {
			ofRooms = append(ofRooms, d.Name)
			bare := d.Name
			d.Name = string(n) + "." + bare
			if sends(d.Name) || !sends(bare) {
				spec.Controls = append(spec.Controls, d)
			}
		}
	}
	// What is sent without the place's name: of the whole page, or of several places.
	for _, d := range m.Controls() {
		known := slices.ContainsFunc(spec.Controls, func(o control.Decl) bool { return o.Name == d.Name })
		if !known && !strings.Contains(d.Name, ".") && (sends(d.Name) || !slices.Contains(ofRooms, d.Name)) {
			spec.Controls = append(spec.Controls, d)
		}
	}
	spec.Shown = all
	for _, wrong := range checkhtml.Check(html, spec) {
		t.Error(wrong)
	}
}
