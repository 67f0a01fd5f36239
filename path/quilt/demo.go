package quilt

import "unthreaded/path/motif"

// Demo returns a cot quilt made from ready motifs, with its designs, to be seen at
// the first visit; each is named by its id until someone gives it a name. Blocks of 7 in, four across and five down, with sashing of 1 in
// and a border of 3 1/2 in add up to 38 x 46 in:
//
//	across 4 x 7 + 3 x 1 + 2 x 3 1/2 = 38, down 5 x 7 + 4 x 1 + 2 x 3 1/2 = 46.
func Demo() (Quilt, Designs) {
	square := motif.Shape{Kind: motif.Square, W: 7 * inch}
	strip := motif.Shape{Kind: motif.Rectangle, W: 7 * inch, H: 1 * inch}
	side := motif.Shape{Kind: motif.Rectangle, W: 31 * inch, H: 3.5 * inch}
	corner := motif.Shape{Kind: motif.Square, W: 3.5 * inch}
	designs := Designs{}
	ready := func(id string, s motif.Shape, margin float64, pattern string, values motif.Values) Choice {
		m, _ := motif.Find(pattern)
		designs[id] = Design{
			Schema: DesignSchema, ID: id, Name: id, Shape: s, Margin: margin,
			Seams: motif.NoSeams, Recipe: &Recipe{Pattern: pattern, Version: m.Version, Values: values},
		}
		return Choice{Design: id}
	}
	q := Quilt{
		Schema: Schema, ID: "demo-cot-quilt", Name: "demo-cot-quilt",
		Setting: Straight, Rows: 5, Cols: 4, BlockMM: 7 * inch, Alternate: Checkerboard,
		Sashing: Sashing{WidthMM: 1 * inch, Cornerstones: true},
		Borders: []Border{{WidthMM: 3.5 * inch, Corners: true}},
		GapMM:   4 * inch,
		ByKind: map[Kind]Choice{
			Block:               ready("demo-lily", square, 8, "flower", nil),
			Alternate:           ready("demo-ripples", square, 8, "spiral", motif.Values{"spacing": 12}),
			Strip:               ready("demo-reeds", strip, 4, "waves", nil),
			BorderKind(0):       ready("demo-bank", side, 6, "vine", nil),
			BorderCornerKind(0): ready("demo-stones", corner, 6, "double-spiral", nil),
		},
	}
	return q, designs
}
