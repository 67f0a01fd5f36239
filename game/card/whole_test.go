package card

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"unthreaded/game/place/machine/bench"
	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/game/words"
	"unthreaded/path/machine"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

const inMM = 25.4

// bedQuilt is a quilt of some 60 x 72 in: 30 blocks with sashing and a border, straight
// (9 in, 6 rows of 5, sashing of 1 1/2 in, a border of 3 1/2 in), or on point (7 1/2 in,
// 4 rows of 5 and 12 between them), filled with the demo's designs.
func bedQuilt(onPoint bool) (quilt.Quilt, quilt.Designs) {
	q, d := quilt.Demo()
	q.ID, q.Name = "bed", "Bed quilt"
	q.Rows, q.Cols, q.BlockMM = 6, 5, 9*inMM
	q.Sashing = quilt.Sashing{WidthMM: 1.5 * inMM, Cornerstones: true}
	q.Borders = []quilt.Border{{WidthMM: 3.5 * inMM, Corners: true}}
	if onPoint {
		q.Setting, q.Rows, q.Cols, q.BlockMM = quilt.OnPoint, 5, 4, 8.5*inMM
	}
	return q, d
}

// lined is a quilt with ribbons from edge to edge within a border that is sewn round as one
// line of loops.
func lined(q quilt.Quilt) quilt.Quilt {
	q.Borders = []quilt.Border{{WidthMM: 3.5 * inMM, Line: &quilt.Recipe{Pattern: "loops", Version: 2}}}
	q.Overall = &quilt.Overall{Recipe: quilt.Recipe{Pattern: "ribbon", Version: 2}, Within: true}
	return q
}

// wholeOf is the job of a quilt, some of it ticked off.
func wholeOf(t testing.TB, q quilt.Quilt, d quilt.Designs, paper string, c order.Choices) sewing.Job {
	t.Helper()
	o, err := order.Plan(q, d, c)
	if err != nil {
		t.Fatal(err)
	}
	a := machine.UsualAssumptions()
	sum, err := o.Job(a)
	if err != nil {
		t.Fatal(err)
	}
	j := sewing.Job{Book: words.Book{Inches: true}, File: "bed-quilt", Whole: sewing.Whole{Quilt: q, Order: o, Sum: sum, Assumed: a}}
	j.W, j.H = bench.Paper(paper).Size()
	return j
}

// ticked is the job with its first stage, some places and the first bobbin ticked off.
func ticked(t testing.TB, j sewing.Job) sewing.Job {
	t.Helper()
	w := j.Whole
	s := order.Sewn{}.With(order.Tick{Kind: order.StageTick, Stage: w.Order.Stages[0].ID, Day: "2026-11-02"})
	second := w.Order.TickOf(1, 0)
	second.Day = "2026-11-03"
	bobbin := sewing.BobbinTick(0)
	bobbin.Day = "2026-11-02"
	w.Sewn = s.With(second).With(bobbin)
	left, err := w.Order.Left(w.Sewn, w.Assumed)
	if err != nil {
		t.Fatal(err)
	}
	w.Left = &left
	j.Whole = w
	return j
}

// wholes are the jobs that the pages are looked at for: straight and on point, some of it
// ticked off, in both languages.
func wholes(t *testing.T) map[string]sewing.Job {
	out := map[string]sewing.Job{}
	for _, onPoint := range []bool{false, true} {
		for _, paper := range []string{"a4", "letter"} {
			q, d := bedQuilt(onPoint)
			if paper == "letter" {
				over := lined(q)
				over.Overall.Values = map[string]float64{"size": 130}
				out[fmt.Sprintf("on point %v, lines over it", onPoint)] = wholeOf(t, over, d, paper, order.Choices{})
			}
			j := wholeOf(t, q, d, paper, order.Choices{})
			out[fmt.Sprintf("on point %v, %s", onPoint, paper)] = j
			j = ticked(t, j)
			j.Book = words.Book{Lang: words.German}
			out[fmt.Sprintf("on point %v, %s, ticked, German", onPoint, paper)] = j
		}
	}
	return out
}

// All of every page lies on the paper, and no words lie on others; the job is one page.
func TestWholeJobOnPaper(t *testing.T) {
	for name, j := range wholes(t) {
		pages, err := whole(j, sewing.AllCards)
		if err != nil {
			t.Fatal(err)
		}
		if want := 1 + len(j.Whole.Order.Stages); len(pages) != want {
			t.Errorf("%s: %d pages, want %d", name, len(pages), want)
		}
		for i, p := range pages {
			at := fmt.Sprintf("%s, page %d", name, i)
			onPaper(t, at, p)
			wordsApart(t, at, p)
		}
	}
}

// wordsApart tells where words lie on others by more than the rounding of their boxes, or are
// smaller than 9 pt (12 px).
func wordsApart(t *testing.T, name string, p Page) {
	t.Helper()
	var labels []scene.Item
	for _, it := range p.Items() {
		if it.Shape != scene.Label || it.Text == "" {
			continue
		}
		if it.Width < smallSize {
			t.Errorf("%s: %q is %.0f px", name, it.Text, it.Width)
		}
		lo, hi := bounds(it)
		for _, o := range labels {
			a, b := bounds(o)
			if min(hi.X, b.X)-max(lo.X, a.X) > 0.3 && min(hi.Y, b.Y)-max(lo.Y, a.Y) > 0.6 {
				t.Errorf("%s: %q lies on %q", name, it.Text, o.Text)
			}
		}
		labels = append(labels, it)
	}
}

// boxes counts the boxes to tick on a page.
func boxes(p Page) int {
	n := 0
	for _, it := range p.Items() {
		lo, hi := bounds(it)
		if it.Shape == scene.Stroke && len(it.Points) == 5 && math.Abs(hi.X-lo.X-boxMM) < 0.5 && math.Abs(hi.Y-lo.Y-boxMM) < 0.5 {
			n++
		}
	}
	return n
}

// written returns all that is written on pages.
func written(pages ...Page) string {
	var out []string
	for _, p := range pages {
		for _, it := range p.Items() {
			if it.Shape == scene.Label {
				out = append(out, it.Text)
			}
		}
	}
	return strings.Join(out, "\n")
}

// The card of the job names every stage with its figures, and what is ticked on the
// screen is printed ticked, with its day, and what is left told.
func TestTheJobsCardIsTrue(t *testing.T) {
	q, d := bedQuilt(false)
	j := wholeOf(t, q, d, "a4", order.Choices{})
	text := written(JobPages(j)...)
	for i, s := range j.Whole.Order.Stages {
		p := j.Whole.Sum.Stages[i]
		for _, want := range []string{sewing.StageName(j.Book, s), j.Book.Amount(sewing.Length(p)), j.Book.Amount(sewing.Span(p.Machine)), j.Book.Amount(sewing.Thread(p.Bobbin))} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: the card lacks %q", s.ID, want)
			}
		}
	}
	for _, f := range append(sewing.Figures(j.Whole.Sum.All), sewing.AtHand(j.Whole.Sum)...) {
		if want := j.Book.Amount(f.Value); !strings.Contains(text, want) {
			t.Errorf("the card lacks %q", want)
		}
	}
	if n := strings.Count(text, "Bobbin "); n < len(j.Whole.Sum.Bobbins) {
		t.Errorf("%d changes of the bobbin on the card, want %d", n, len(j.Whole.Sum.Bobbins))
	}
	if strings.Contains(text, "2026") {
		t.Error("something is ticked that is not sewn")
	}
	j = ticked(t, j)
	text = written(JobPages(j)...)
	left := j.Book.Amount(sewing.Span(j.Whole.Left.Job.All.Machine))
	for _, want := range []string{"The ditch across, 2 Nov 2026", "before place 7, 2 Nov 2026", "Left, 11 of 105", left} {
		if !strings.Contains(text, want) {
			t.Errorf("the ticked card lacks %q", want)
		}
	}
	for i, st := range j.Whole.Order.Stages { // a box for the stage, its places and its bobbins
		if got, want := boxes(StagePage(j, i)), 1+len(st.Legs)+min(2, len(bobbinsOf(j.Whole, i))); got < want {
			t.Errorf("%s: %d boxes to tick, want %d", st.ID, got, want)
		}
	}
	if !strings.Contains(written(StagePage(j, 0)), "2 Nov 2026") || strings.Contains(written(StagePage(j, 2)), "2026") {
		t.Error("the cards of the stages are not ticked as they are sewn")
	}
}

// The card of a stage numbers each place once and shows each different block once; its
// file is named after quilt and stage.
func TestTheStagesCard(t *testing.T) {
	for name, j := range wholes(t) {
		for i, s := range j.Whole.Order.Stages {
			text := written(StagePage(j, i))
			blocks := programsOf(j.Whole, i)
			if n := strings.Count(text, "1"); s.Kind != order.Ditch && n == 0 {
				t.Errorf("%s, %s: no place is numbered", name, s.ID)
			}
			if s.Line {
				if !strings.Contains(text, j.Book.Say("card.line-detail")) || strings.Contains(text, j.Book.Say("card.mark.stop")) {
					t.Errorf("%s, %s: a line by itself is told of as %q", name, s.ID, text)
				}
				continue
			}
			if n := strings.Count(text, " Zu") + strings.Count(text, " Zü") + strings.Count(text, " move"); s.Kind != order.Ditch && n < min(len(blocks), mostBlocks) {
				t.Errorf("%s, %s: %d different blocks are told of, want %d", name, s.ID, n, len(blocks))
			}
		}
		j.Stage = 2
		f, err := Make(j, sewing.StageCard, sewing.AsSVG)
		if want := "bed-quilt-" + j.Whole.StageCode(2) + ".svg"; err != nil || f.Name != want || f.Pages != 1 {
			t.Errorf("%s: the file is %q of %d pages, want %q (%v)", name, f.Name, f.Pages, want, err)
		}
	}
	if _, err := Make(sewing.Job{}, sewing.JobCard, sewing.AsPDF); err == nil {
		t.Error("a job without a quilt has a card")
	}
	q, d := bedQuilt(false)
	j := wholeOf(t, q, d, "a4", order.Choices{})
	j.Stage = 99
	if _, err := Make(j, sewing.StageCard, sewing.AsPDF); err == nil {
		t.Error("a stage that is not there has a card")
	}
}

// A quilt of very many rows has a second page rather than small letters, and rows of many
// places keep their numbers apart.
func TestManyRowsOnPaper(t *testing.T) {
	q, d := bedQuilt(true)
	q.Rows, q.Cols, q.BlockMM = 9, 9, 7*inMM
	j := ticked(t, wholeOf(t, q, d, "letter", order.Choices{Passes: map[string]order.Passes{"row-17": order.OutAndBack}}))
	pages, err := whole(j, sewing.AllCards)
	if err != nil {
		t.Fatal(err)
	}
	if extra := len(pages) - len(j.Whole.Order.Stages); extra < 2 || extra > 3 {
		t.Errorf("the job takes %d pages", extra)
	}
	for i, p := range pages {
		at := fmt.Sprintf("page %d", i)
		onPaper(t, at, p)
		wordsApart(t, at, p)
	}
}

// The numbers of the stages lie neither on each other nor on the quilt nor off the part of
// the page that the picture has, whatever the quilt and however small the picture; on the
// card none is left out, and never the first or the last.
func TestNumbersOfStagesAreApart(t *testing.T) {
	for _, rows := range []int{1, 6, 9, 14, 20} {
		for _, onPoint := range []bool{false, true} {
			q, d := bedQuilt(onPoint)
			q.Rows, q.Cols, q.BlockMM = rows, min(rows, 6), 4*inMM
			if onPoint {
				q.Rows = (rows + 1) / 2
			}
			j := wholeOf(t, q, d, "a4", order.Choices{})
			_, card := jobLaid(j)
			for _, high := range []float64{75, 100, card.h} {
				in := card
				in.h = high
				v, took := wholeView(j.Whole, in)
				at := fmt.Sprintf("%d rows, on point %v, %v mm", rows, onPoint, high)
				n := numbersApart(t, at, j.Whole, v, rect{in.x, in.y, in.w, took})
				if stages := len(j.Whole.Order.Stages); high == card.h && n < stages {
					t.Errorf("%s: on the card %d of %d stages have their number", at, n, stages)
				}
			}
		}
	}
}

func numbersApart(t *testing.T, at string, w sewing.Whole, v topView, in rect) int {
	t.Helper()
	all := stageNumbers(w, v)
	lo, hi := edgeOf(w).Map(v.onPage).Bounds()
	shown := map[int]bool{}
	for i, n := range all {
		shown[n.stage] = true
		wide, high := badgeHalf(n.stage+1, smallSize)+badgeHigh/2*smallSize/Px, badgeHigh/2*smallSize/Px
		for _, o := range all[:i] {
			if math.Abs(n.at.Y-o.at.Y) < 2*high && math.Abs(n.at.X-o.at.X) < badgeHalf(n.stage+1, smallSize)+badgeHalf(o.stage+1, smallSize) {
				t.Errorf("%s: %d lies on %d", at, n.stage+1, o.stage+1)
			}
		}
		if n.at.X+wide > lo.X+0.3 && n.at.X-wide < hi.X-0.3 && n.at.Y+high > lo.Y+0.3 && n.at.Y-high < hi.Y-0.3 {
			t.Errorf("%s: %d lies on the quilt", at, n.stage+1)
		}
		if n.at.X-wide < in.x-0.5 || n.at.X+wide > in.x+in.w+0.5 || n.at.Y-high < in.y-0.5 || n.at.Y+high > in.y+in.h+0.5 {
			t.Errorf("%s: %d at %v is outside %v", at, n.stage+1, n.at, in)
		}
	}
	if !shown[0] || !shown[len(w.Order.Stages)-1] {
		t.Errorf("%s: the first or the last stage has no number", at)
	}
	return len(all)
}
