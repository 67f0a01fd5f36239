package card

import (
	"fmt"

	"unthreaded/game"
)

// File is a card as a file.
type File struct {
	Name, Type string
	Data       []byte
	// Pages is how many it has.
	Pages int
}

// Make makes a card of the plan at the machine.
func Make(m game.Model, what game.CardKind, as game.FileKind) (File, error) {
	pages, err := layOut(m, what, as)
	if err != nil {
		return File{}, err
	}
	title := m.Bench.Plan.Name + ": " + string(what)
	f := File{Name: fmt.Sprintf("%s-%s.%s", m.Bench.Plan.ID, what, as), Pages: len(pages)}
	switch as {
	case game.PDF:
		f.Type = "application/pdf"
		f.Data, err = PDF(title, pages)
	case game.PNG:
		f.Type = "image/png"
		f.Data, err = PNG(pages[0])
	case game.SVG:
		f.Type, f.Data = "image/svg+xml", SVG(title, pages[0])
	default:
		err = fmt.Errorf("no form of file is called %q", as)
	}
	return f, err
}

// layOut returns the pages of a card; a template that is no document for printing
// comes in one piece.
func layOut(m game.Model, what game.CardKind, as game.FileKind) ([]Page, error) {
	var pg Page
	var err error
	switch what {
	case game.RouteCard:
		pg, err = Route(m)
	case game.PassesCard:
		pg, err = Passes(m)
	case game.TemplateCard:
		pages, err := Template(m)
		if err == nil && as != game.PDF {
			pages = []Page{whole(m)}
		}
		return pages, err
	default:
		err = fmt.Errorf("no card is called %q", what)
	}
	return []Page{pg}, err
}
