package card

import (
	"fmt"
	"image"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"unthreaded/game/plan"
	"unthreaded/game/sewing"
	"unthreaded/path/geom"
)

// poppler returns the path of a tool of poppler-utils, an independent reader of PDF.
func poppler(t *testing.T, tool string) string {
	t.Helper()
	path, err := exec.LookPath(tool)
	if err != nil {
		message := tool + " is missing (on Debian: apt-get install poppler-utils)"
		if os.Getenv("CI") != "" {
			t.Fatal(message)
		}
		t.Skip("SKIPPED: " + message + ", the documents were not checked")
	}
	return path
}

const (
	dpi     = 300
	pxPerMM = dpi / 25.4
)

// printed returns the pages of a card as pdftoppm renders them at 300 dots per inch.
func printed(t *testing.T, m sewing.Job, what sewing.Kind) []*image.Gray {
	t.Helper()
	tool := poppler(t, "pdftoppm")
	f, err := Make(m, what, sewing.AsPDF)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	doc := filepath.Join(dir, "card.pdf")
	if err := os.WriteFile(doc, f.Data, 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(tool, "-r", fmt.Sprint(dpi), "-gray", doc, filepath.Join(dir, "page")).CombinedOutput(); err != nil {
		t.Fatalf("pdftoppm: %v\n%s", err, out)
	}
	names, err := filepath.Glob(filepath.Join(dir, "page*.pgm"))
	if err != nil || len(names) != f.Pages {
		t.Fatalf("%d pages were rendered (%v), %d were told", len(names), err, f.Pages)
	}
	var pages []*image.Gray
	for _, name := range names {
		pages = append(pages, readPGM(t, name))
	}
	return pages
}

// readPGM reads a grey picture in the form that pdftoppm writes: "P5", width, height
// and 255, then a byte for each pixel (Netpbm, pgm(5)).
func readPGM(t *testing.T, name string) *image.Gray {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var w, h, depth int
	if _, err := fmt.Sscanf(string(b[:min(len(b), 40)]), "P5\n%d %d\n%d\n", &w, &h, &depth); err != nil || depth != 255 || len(b) < w*h {
		t.Fatalf("%s: %d x %d with %d bytes: %v", name, w, h, len(b), err)
	}
	return &image.Gray{Pix: b[len(b)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)}
}

// dark tells whether a pixel is nearer to ink than to paper.
func dark(img *image.Gray, x, y int) bool {
	return img.GrayAt(x, y).Y < 160
}

// upright returns the places in mm, from the left, of the lines that run down all
// of the rows from y0 to y1 mm: the middles of runs of columns that are dark nearly
// all the way.
func upright(img *image.Gray, y0, y1 float64) []float64 {
	return runs(img.Bounds().Dx(), y0, y1, func(i, k int) bool { return dark(img, i, k) })
}

// level does the same for lines across.
func level(img *image.Gray, x0, x1 float64) []float64 {
	return runs(img.Bounds().Dy(), x0, x1, func(i, k int) bool { return dark(img, k, i) })
}

func runs(n int, from, to float64, dark func(i, k int) bool) []float64 {
	var out []float64
	first := -1
	a, b := int(from*pxPerMM), int(to*pxPerMM)
	for i := 0; i <= n; i++ {
		count := 0
		for k := a; i < n && k < b; k++ {
			if dark(i, k) {
				count++
			}
		}
		full := i < n && float64(count) > 0.95*float64(b-a)
		if full && first < 0 {
			first = i
		} else if !full && first >= 0 {
			out = append(out, (float64(first+i)/2)/pxPerMM)
			first = -1
		}
	}
	return out
}

// apart returns the distance of the outermost of the lines, 0 if there are not two.
func apart(at []float64) float64 {
	if len(at) < 2 {
		return 0
	}
	return at[len(at)-1] - at[0]
}

// trueTo is how near in mm a printed length must come.
const trueTo = 0.3

// The page to measure first has a square of 50 mm and one of an inch (25.4 mm), on
// paper of the size that the standards give.
func TestTestSquaresAreTrue(t *testing.T) {
	for paper, size := range map[string][2]float64{"a4": {210, 297}, "letter": {215.9, 279.4}} {
		img := printed(t, jobOf(t, "crosshatch", paper), sewing.TemplateCard)[0]
		for i, got := range []int{img.Bounds().Dx(), img.Bounds().Dy()} {
			if math.Abs(float64(got)/pxPerMM-size[i]) > trueTo {
				t.Errorf("%s: the page is %.2f mm, want %v (ISO 216; ANSI/ASME Y14.1)", paper, float64(got)/pxPerMM, size[i])
			}
		}
		top := squareTop(t, img)
		at := upright(img, top+5, top+20)
		if len(at) != 4 {
			t.Errorf("%s: lines at %.2f mm, want the 4 sides of two squares", paper, at)
			continue
		}
		if w, h := at[1]-at[0], apart(level(img, at[0]+5, at[1]-5)); math.Abs(w-50) > trueTo || math.Abs(h-50) > trueTo {
			t.Errorf("%s: the square of 50 mm is %.2f x %.2f mm", paper, w, h)
		}
		if w, h := at[3]-at[2], apart(level(img, at[2]+3, at[3]-3)); math.Abs(w-25.4) > trueTo || math.Abs(h-25.4) > trueTo {
			t.Errorf("%s: the square of an inch is %.2f x %.2f mm", paper, w, h)
		}
	}
}

// squareTop finds the upper side of the squares: the first line that is dark for
// 40 mm from 20 mm on.
func squareTop(t *testing.T, img *image.Gray) float64 {
	t.Helper()
	at := level(img, 20, 60)
	if len(at) == 0 {
		t.Fatal("no square is on the page")
	}
	return at[0]
}

// A block on one sheet has its size: the seams round the crosshatch.
func TestABlockIsTrue(t *testing.T) {
	m := jobOf(t, "crosshatch", "letter")
	pages := printed(t, m, sewing.TemplateCard)
	lo, hi := plan.Bounds(m.Desk.Graph)
	img := pages[1]
	if n := len(pages); n != sewing.TemplatePages(m) || n != 2 {
		t.Fatalf("%d pages, told are %d", n, sewing.TemplatePages(m))
	}
	midX, midY := float64(img.Bounds().Dx())/pxPerMM/2, (float64(img.Bounds().Dy())/pxPerMM+sewing.StripMM)/2
	// Looked at between the dots, which interrupt the border every 20 mm.
	if got := apart(upright(img, midY+3, midY+17)); math.Abs(got-(hi.X-lo.X)) > trueTo {
		t.Errorf("the block is %.2f mm wide, want %v", got, hi.X-lo.X)
	}
	if got := apart(level(img, midX+3, midX+17)); math.Abs(got-(hi.Y-lo.Y)) > trueTo {
		t.Errorf("the block is %.2f mm high, want %v", got, hi.Y-lo.Y)
	}
}

// A block on several sheets has its size when the sheets are laid cross on cross.
func TestSheetsLaidTogetherAreTrue(t *testing.T) {
	m := large(t, "crosshatch", "a4", 4)
	lo, hi := plan.Bounds(m.Desk.Graph)
	g := m.Tiling()
	if g.Cols < 2 || g.Rows < 2 {
		t.Fatalf("%d x %d sheets, want several either way", g.Cols, g.Rows)
	}
	pages := printed(t, m, sewing.TemplateCard)
	if len(pages) != 1+g.Cols*g.Rows {
		t.Fatalf("%d pages, want 1 and %d x %d", len(pages), g.Cols, g.Rows)
	}
	// Along the upper sheets: the left border on the first, the right on the last,
	// each measured from its right or left crosses.
	first, last := pages[1], pages[g.Cols]
	rest := float64(g.Cols-2) * (g.W - sewing.Overlap)
	left := fromCross(t, first, g, hi.Y-lo.Y, true)
	right := fromCross(t, last, g, hi.Y-lo.Y, false)
	if got, want := left+rest+right, hi.X-lo.X; math.Abs(got-want) > 2*trueTo {
		t.Errorf("laid together the block is %.2f mm wide, want %.2f", got, want)
	}
}

// fromCross measures on a sheet of the upper row how far the block's outer border is
// from the crosses on the other side.
func fromCross(t *testing.T, img *image.Gray, g sewing.Tiling, high float64, right bool) float64 {
	t.Helper()
	top := Margin + sewing.StripMM + sewing.Overlap/2 // of the upper crosses
	crosses := upright(img, top-3.4, top+3.4)
	lines := upright(img, Margin+sewing.StripMM+g.H-60, Margin+sewing.StripMM+g.H-30)
	if len(crosses) < 2 || len(lines) == 0 {
		t.Fatalf("crosses at %.2f and lines at %.2f mm", crosses, lines)
	}
	if right {
		return crosses[len(crosses)-1] - lines[0]
	}
	return lines[len(lines)-1] - crosses[0]
}

// large is the place Machine with a ready drawing made n times as large.
func large(t testing.TB, drawing, paper string, n float64) sewing.Job {
	m := jobOf(t, drawing, paper)
	m.Desk.Graph.Nodes, m.Desk.Graph.Edges = slices.Clone(m.Desk.Graph.Nodes), slices.Clone(m.Desk.Graph.Edges)
	for i := range m.Desk.Graph.Nodes {
		p := m.Desk.Graph.Nodes[i]
		m.Desk.Graph.Nodes[i] = geom.Pt(p.X*n, p.Y*n)
	}
	for i, e := range m.Desk.Graph.Edges {
		path := make(geom.Polyline, len(e.Path))
		for k, p := range e.Path {
			path[k] = geom.Pt(p.X*n, p.Y*n)
		}
		m.Desk.Graph.Edges[i].Path = path
	}
	return m
}

// The text of every card is text, in an embedded font, whatever the letters of the
// plan's name; characters that the font lacks break nothing.
func TestTextIsText(t *testing.T) {
	tool := poppler(t, "pdftotext")
	m := jobOf(t, "crosshatch", "a4")
	m.Name = "Joan's 9½ in Blöck, żółć, Ёлка & π 漢"
	f, err := Make(m, sewing.RouteCard, sewing.AsPDF)
	if err != nil {
		t.Fatal(err)
	}
	doc := filepath.Join(t.TempDir(), "card.pdf")
	if err := os.WriteFile(doc, f.Data, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-layout", doc, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	text := string(out)
	for _, want := range []string{
		"Joan's 9½ in Blöck, żółć, Ёлка & π ?", "600 stitches a minute", "10 per inch (2.54 mm)", "1.00 in/s (25.4 mm/s)",
		"Start", "Leave", "ruler foot", "hidden in the ditch", "Switch the machine off before changing the foot",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the card does not say %q:\n%s", want, text)
		}
	}
	for step := 1; step <= len(m.Desk.Moves()); step++ {
		if !strings.Contains(text, fmt.Sprint(step)) {
			t.Errorf("move %d has no number", step)
		}
	}
	fonts, err := exec.Command(poppler(t, "pdffonts"), doc).Output()
	if err != nil || !regexp.MustCompile(`CID TrueType +Identity-H +yes \w+ +yes`).Match(fonts) {
		t.Errorf("embedded and with a table of characters (%v)?\n%s", err, fonts)
	}
}

// The passes of a row stand on one page, each move in one of them.
func TestPassesOnOnePage(t *testing.T) {
	m := outAndBack(t, "a4")
	if pages := printed(t, m, sewing.PassesCard); len(pages) != 1 {
		t.Errorf("%d pages", len(pages))
	}
}
