package quilt

import (
	"strings"
	"testing"

	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/path/quilt"
)

// Every place of every layout, and every change of size that is offered, has words in every
// language.
func TestEveryPlaceHasAName(t *testing.T) {
	for _, lang := range words.Languages() {
		b := words.Book{Lang: lang}
		for _, setting := range []quilt.Setting{quilt.Straight, quilt.OnPoint} {
			for _, stones := range []bool{false, true} {
				q := quilt.Quilt{
					Schema: quilt.Schema, ID: "q", Name: "q", Setting: setting, Rows: 3, Cols: 2, BlockMM: 150, Alternate: quilt.Checkerboard,
					Sashing: quilt.Sashing{WidthMM: 30, Cornerstones: stones, Round: stones},
					Borders: []quilt.Border{{WidthMM: 40}, {WidthMM: 50, Corners: true}},
				}
				names := map[string]bool{}
				for _, c := range q.Cells() {
					name := b.Write(top.SpotName(c.Spot))
					if names[name] || b.Write(top.KindName(c.Kind)) == "" || b.Write(top.ShapeSize(c.Shape)) == "" {
						t.Errorf("%s, %s: the name %q stands twice, or a kind has none", lang, c.ID, name)
					}
					names[name] = true
				}
				if len(totals(q, b)) < 5 {
					t.Errorf("%s: totals %v", setting, totals(q, b))
				}
			}
		}
	}
}

// The worked example of path/quilt in words: 4 blocks of 12 in with 3 strips of 2 1/2 in
// and borders of 1 1/2 in add up to 58 1/2 in.
func TestFitInWords(t *testing.T) {
	const inch = 25.4
	q := quilt.Quilt{
		Schema: quilt.Schema, ID: "q", Name: "q", Setting: quilt.Straight, Rows: 4, Cols: 4, BlockMM: 12 * inch,
		Sashing: quilt.Sashing{WidthMM: 2.5 * inch}, Borders: []quilt.Border{{WidthMM: 1.5 * inch}},
	}
	said := func(q quilt.Quilt, w, h float64) string {
		return fitText(top.Open(q, nil).SetWant(quilt.Size{W: w, H: h}), words.Book{Inches: true})
	}
	want := "Both ways the rows add up to 58½ in, 1½ in less than 60 in." +
		" An outer border ¾ in wider on each side, 2¼ in in all, would make it so." +
		" Sashing of 3 in instead of 2½ in would make it so. Blocks of 12⅜ in instead of 12 in would make it so."
	if got := said(q, 60*inch, 60*inch); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got := said(q, 58.5*inch, 58.5*inch); got != "The top adds up to 58½ in x 58½ in, as wanted." {
		t.Error(got)
	}
	q.Cols, q.Borders = 3, nil
	want = "Across the rows add up to 41 in, 1 in less than 42 in. Down it is 55½ in, as wanted." +
		" A border of ½ in on each side would make the width right and the height 56½ in."
	if got := said(q, 42*inch, 55.5*inch); !strings.HasPrefix(got, want) {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got := said(q, 10, 10); !strings.HasSuffix(got, "change the number of rows.") {
		t.Error(got)
	}
}

// A quilt that cannot be laid out is refused in words that give the limits.
func TestRefusalsOfALayout(t *testing.T) {
	q, _ := quilt.Demo()
	for _, c := range []struct {
		change func(top.Top) (top.Top, error)
		want   string
	}{
		{func(t top.Top) (top.Top, error) { return t.SetRows(0, 3) }, "A top takes 1 to 40 rows, and as many blocks in each."},
		{func(t top.Top) (top.Top, error) { return t.SetBlock(1) }, "A block takes 10 mm to 3060 mm."},
		{func(t top.Top) (top.Top, error) { return t.SetBlock(2000) }, "either way are possible."},
		{func(t top.Top) (top.Top, error) { return t.SetSashing(quilt.Sashing{WidthMM: 1}) }, "or 0 for none."},
		{func(t top.Top) (top.Top, error) { return t.SetBorder(0, quilt.Border{WidthMM: 1}) }, "A border takes"},
		{func(t top.Top) (top.Top, error) { return t.SetGap(1e6) }, "where it is not known."},
	} {
		_, err := c.change(top.Open(q, nil))
		if err == nil || !strings.HasSuffix((words.Book{}).Write(words.Why(err)), c.want) && !strings.Contains(err.Error(), c.want) {
			t.Errorf("refused by %v, want %q", err, c.want)
		}
	}
}

// A size in mind that takes odd measures is told in decimals, as eighths of an inch would
// not add up: five blocks for 54 in are 10.8 in each.
func TestFitIsToldAsItAddsUp(t *testing.T) {
	const inch = 25.4
	q := quilt.Quilt{Schema: quilt.Schema, ID: "q", Name: "q", Setting: quilt.Straight, Rows: 5, Cols: 5, BlockMM: 10 * inch}
	said := fitText(top.Open(q, nil).SetWant(quilt.Size{W: 54 * inch, H: 54 * inch}), words.Book{Inches: true})
	if !strings.Contains(said, "Blocks of 10.8 in instead of 10 in would make it so.") {
		t.Error(said)
	}
}

// Beds up to 120 x 120 in can be laid out, straight and on point with sashing and
// cornerstones.
func TestALargeBed(t *testing.T) {
	const inch = 25.4
	for _, q := range []quilt.Quilt{
		{Rows: 10, Cols: 10, BlockMM: 12 * inch, Setting: quilt.Straight},
		{Rows: 8, Cols: 8, BlockMM: 9 * inch, Setting: quilt.OnPoint, Sashing: quilt.Sashing{WidthMM: 1 * inch, Cornerstones: true}},
	} {
		q.Schema, q.ID, q.Name = quilt.Schema, "q", "bed"
		if err := q.Validate(); err != nil {
			t.Errorf("%s, %v: %v", q.Setting, q.Size(), err)
		}
	}
}
