package board

import (
	"bytes"
	"fmt"
	"image"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

func fresh(kind motif.ShapeKind, w float64) Board {
	s := motif.Shape{Kind: kind, W: w}
	if kind == motif.Rectangle {
		s.H = w / 2
	}
	return Open(quilt.Design{Schema: quilt.DesignSchema, ID: "t", Name: "trial", Shape: s, Margin: 5, Seams: motif.NoSeams})
}

// press draws with the tool in hand from point to point.
func press(b Board, pts ...geom.Point) Board {
	b = b.Down(pts[0])
	for _, p := range pts[1:] {
		b = b.Move(p)
	}
	return b.Up()
}

func doc(t interface{ Fatal(...any) }, b Board) []byte {
	d, err := quilt.EncodeDesign(b.Design)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// A circle drawn by an unsteady hand becomes a closed smooth line of about its
// circumference, 2 pi r.
func TestAHandsCircleIsClosed(t *testing.T) {
	b := fresh(motif.Square, 150)
	var pts []geom.Point
	for i := 0; i <= 200; i++ {
		a := 2 * math.Pi * float64(i) / 200
		r := 40 + 0.25*math.Sin(37*a)
		pts = append(pts, geom.Pt(75+r*math.Cos(a), 75+r*math.Sin(a)))
	}
	b = press(b, pts...)
	if len(b.Design.Lines) != 1 || !b.HasFitted {
		t.Fatalf("%d lines after a stroke (%v)", len(b.Design.Lines), b.Said)
	}
	path := b.Design.Lines[0].Path
	if !path.Closed() {
		t.Error("the circle is not closed")
	}
	if got, want := path.Length(), 2*math.Pi*40; math.Abs(got-want) > 0.01*want {
		t.Errorf("its length is %.1f mm, want %.1f within 1 %%", got, want)
	}
	if b.Fitted.MaxChange > 0.8 {
		t.Errorf("the line was moved by %.2f mm", b.Fitted.MaxChange)
	}
}

// A tap with the pencil draws nothing and says so.
func TestADotIsNoLine(t *testing.T) {
	b := press(fresh(motif.Square, 150), geom.Pt(20, 20))
	if len(b.Design.Lines) != 0 || b.Said.None() {
		t.Errorf("a tap left %d lines and %v", len(b.Design.Lines), b.Said)
	}
}

// Ruler lines by taps and by the keyboard are the same: from dot to dot, ruler work
// with a stop on each dot. Four dots on each side of 150 mm, ends included, are
// 50 mm apart.
func TestRulerByTapAndByKeyboard(t *testing.T) {
	b := fresh(motif.Square, 150).SetMark(quilt.OnSides, 4, sketch.WithEnds).SetTool(Ruler)
	if len(b.Dots) != 12 {
		t.Fatalf("%d dots, want 12", len(b.Dots))
	}
	tapped := b
	for _, p := range []geom.Point{geom.Pt(1, 1), geom.Pt(51, 149), geom.Pt(99, 0.5), geom.Pt(99, 0.5)} {
		tapped = press(tapped, p)
	}
	keyed := b
	for _, k := range []string{"ArrowDown", "Enter", "ArrowRight", "ArrowDown", "ArrowDown", "ArrowDown", "Enter"} {
		keyed = keyed.Key(k, false)
	}
	want := "M 0 0 L 50 150 L 100 0"
	got := geom.Format(geom.Polyline(tapped.Design.Lines[0].Path.Nodes()))
	if got != want {
		t.Errorf("tapped: %s, want %s", got, want)
	}
	l := tapped.Design.Lines[0]
	if leg := math.Hypot(50, 150); len(l.Dots) != 3 || math.Abs(l.Dots[1]-leg) > 1e-9 || l.Kind != "ruler" {
		t.Errorf("dots at %v of a %s line, want 0, %v and twice that", l.Dots, l.Kind, leg)
	}
	if len(keyed.Chain) == 0 || keyed.Chain[0] != geom.Pt(0, 0) {
		t.Fatalf("the keyboard's line starts with %v", keyed.Chain)
	}
	keyed = keyed.Key("Enter", false)
	if len(keyed.Design.Lines) != 1 || keyed.Design.Lines[0].Kind != "ruler" {
		t.Errorf("the keyboard drew %d lines (%v)", len(keyed.Design.Lines), keyed.Said)
	}
}

// A line that was chosen, moved, cut, joined and deleted comes back step by step.
func TestTenStepsBack(t *testing.T) {
	b := fresh(motif.Square, 150)
	b = press(b, geom.Pt(20, 20), geom.Pt(40, 22), geom.Pt(60, 35), geom.Pt(80, 60), geom.Pt(85, 90))
	b = b.SetTool(Ruler)
	for _, p := range []geom.Point{geom.Pt(30, 120), geom.Pt(90, 130), geom.Pt(120, 60), geom.Pt(120, 60)} {
		b = press(b, p)
	}
	steps := []func(Board) Board{
		func(b Board) Board { return b.ChooseLine(0).AddPoint() },
		func(b Board) Board { return b.ChooseLine(0).NextNode(1).Sharp() },
		func(b Board) Board { return b.ChooseLine(1).SetKind("sewn") },
		func(b Board) Board { return b.ChooseLine(All).MirrorAcross(true) },
		func(b Board) Board { return b.ChooseLine(0).Turn(30, false) },
		func(b Board) Board { return b.ChooseLine(All).FitToBlock() },
		func(b Board) Board { return b.SetShape(motif.Hexagon) },
		func(b Board) Board { return b.SetPattern("spiral") },
		func(b Board) Board { return b.SetMark(quilt.OnSides, 3, sketch.HalfSpace) },
		func(b Board) Board { return b.ChooseLine(2).Delete() },
	}
	docs := [][]byte{doc(t, b)}
	for i, s := range steps {
		b = s(b)
		docs = append(docs, doc(t, b))
		if bytes.Equal(docs[i], docs[i+1]) {
			t.Fatalf("step %d changed nothing (%v)", i, b.Said)
		}
	}
	for i := len(steps) - 1; i >= 0; i-- {
		if b = b.Undo(); !bytes.Equal(doc(t, b), docs[i]) {
			t.Fatalf("undo to before step %d gives another block", i)
		}
	}
	for i := range steps {
		if b = b.Redo(); !bytes.Equal(doc(t, b), docs[i+1]) {
			t.Fatalf("redo of step %d gives another block", i)
		}
	}
}

// A slider's many values are one step for undo, as is a whole drag.
func TestASliderIsOneStep(t *testing.T) {
	b := fresh(motif.Square, 150).SetPattern("crosshatch")
	before := doc(t, b)
	id := b.Design.Recipe.Pattern
	p, _ := motif.Find(id)
	q := p.Params[0]
	for i := 1; i <= 5; i++ {
		b = b.SetParam(q.ID, q.Min+float64(i)*q.Step)
	}
	if b = b.Undo(); !bytes.Equal(doc(t, b), before) {
		t.Error("one undo did not take the whole slide back")
	}
}

// Every ready motif turned into lines keeps its length within half a percent, and
// no point of it moves by more than 0.25 mm.
func TestLoosenedMotifsKeepTheirLines(t *testing.T) {
	for _, p := range motif.Ready() {
		b := fresh(motif.Square, 120)
		if p.Lack(b.Design.Shape) != "" { // it runs along strips
			b = fresh(motif.Rectangle, 240).SetSize(240, 60)
		}
		b = b.SetPattern(p.ID)
		if b.Trouble != nil {
			t.Errorf("%s does not fit: %v", p.ID, b.Trouble)
			continue
		}
		want := 0.0
		for _, w := range b.Work {
			want += w.Path.Length()
		}
		b = b.Loosen()
		got := 0.0
		for _, l := range b.Design.Lines {
			got += l.Path.Length()
		}
		if math.Abs(got-want) > 0.005*want || b.Design.Recipe != nil {
			t.Errorf("%s: %.0f mm of lines, the motif has %.0f (%v)", p.ID, got, want, b.Said)
		}
	}
}

// Whatever is done, the block stays one that can be kept, and undo leads back to
// where it began.
func TestAnythingCanBeTakenBack(t *testing.T) {
	patterns := motif.Ready()
	rapid.Check(t, func(rt *rapid.T) {
		b := fresh(rapid.SampledFrom(motif.Shapes()).Draw(rt, "shape"), 140)
		start := doc(rt, b)
		at := func() geom.Point {
			return geom.Pt(rapid.Float64Range(-20, 160).Draw(rt, "x"), rapid.Float64Range(-20, 160).Draw(rt, "y"))
		}
		for n := rapid.IntRange(1, 14).Draw(rt, "moves"); n > 0; n-- {
			switch rapid.IntRange(0, 12).Draw(rt, "move") {
			case 0, 1:
				b = press(b.SetTool(Pencil), at(), at(), at())
			case 2, 3:
				b = press(b.SetTool(Ruler), at(), at())
			case 4:
				b = press(b.SetTool(Change), at(), at())
			case 5:
				b = b.SetPattern(rapid.SampledFrom(patterns).Draw(rt, "pattern").ID)
			case 6:
				b = b.Loosen()
			case 7:
				b = b.ChooseLine(rapid.IntRange(All, 5).Draw(rt, "line")).Turn(rapid.Float64Range(-180, 180).Draw(rt, "turn"), rapid.Bool().Draw(rt, "copy"))
			case 8:
				b = b.ChooseLine(rapid.IntRange(0, 5).Draw(rt, "line")).NextNode(1).Split()
			case 9:
				b = b.ChooseLine(rapid.IntRange(0, 5).Draw(rt, "line")).Join()
			case 10:
				b = b.SetShape(rapid.SampledFrom(motif.Shapes()).Draw(rt, "shape"))
			case 11:
				b = b.Key(rapid.SampledFrom([]string{"ArrowUp", "ArrowLeft", "Enter", "Delete"}).Draw(rt, "key"), rapid.Bool().Draw(rt, "shift"))
			case 12:
				b = b.Undo()
			}
			doc(rt, b)
		}
		for b.CanUndo() {
			b = b.Undo()
		}
		if !bytes.Equal(doc(rt, b), start) {
			rt.Fatal("undoing everything does not lead back to the start")
		}
	})
}

// A photo whose corners are set lies under the block at its true size; taking it
// away and undoing brings it back.
func TestPhotoUnderTheBlock(t *testing.T) {
	src := image.NewRGBA(image.Rect(0, 0, 400, 300))
	b := fresh(motif.Square, 150).TakePhoto("p1", src)
	if !b.Cornering() {
		t.Fatal("the corners of a new photo are not being set")
	}
	corners := b.PhotoCorners()
	to := geom.Pt(corners[0].X+5, corners[0].Y+7)
	b = press(b, corners[0], to)
	if d := geom.Dist(b.PhotoCorners()[0], to); d > 1e-6 {
		t.Errorf("the corner came to lie %.3f mm from the pointer", d)
	}
	if len(b.Design.Lines) != 0 {
		t.Error("dragging a corner drew a line")
	}
	b = b.SetPhoto(func(p *quilt.Photo) { p.Squared = true }, "")
	q, wanted := b.Squares()
	if !wanted || q.W != 150 || b.Photo.Under != src {
		t.Fatalf("to be squared: %t, %+v", wanted, q)
	}
	if none := b.GiveSquared(q, nil); !none.Photo.Trouble {
		t.Error("that it cannot be squared is not told")
	}
	if b = b.GiveSquared(q, src); b.Photo.Trouble {
		t.Error("a squared photo is in trouble")
	}
	if _, again := b.Squares(); again {
		t.Error("it is to be squared twice")
	}
	if w := b.Photo.Hi.X - b.Photo.Lo.X; math.Abs(w-150) > 1e-9 || b.Photo.Trouble {
		t.Errorf("the squared photo is %.2f mm wide, want 150 (%v)", w, b.Photo.Trouble)
	}
	if b = b.DropPhoto(); b.Photo.Under != nil {
		t.Error("the photo lies there still")
	}
	if b = b.Undo(); b.Photo.Under == nil {
		t.Error("the photo does not come back")
	}
}

// A block that was kept before its motif was drawn anew keeps its lines, also when its
// measures are changed; it is drawn anew only when that is asked for, and undo brings the
// old lines back.
func TestAKeptMotifIsNotDrawnAnewUnasked(t *testing.T) {
	for _, id := range []string{"stipple", "waves", "feather"} {
		now, _ := motif.Find(id)
		then, ok := now.In(1)
		if !ok || now.Version < 2 {
			t.Fatalf("%s has not been drawn anew", id)
		}
		shape := motif.Shape{Kind: motif.Square, W: 150}
		want, err := then.Fit(shape, 5, nil)
		if err != nil {
			t.Fatal(err)
		}
		doc := fmt.Sprintf(`{"schema":1,"id":"k","name":"Kept","shape":{"kind":"square","w":150},"margin_mm":5,"seams":"","recipe":{"pattern":%q}}`, id)
		d, err := quilt.DecodeDesign([]byte(doc))
		if err != nil {
			t.Fatal(err)
		}
		b := Open(d)
		if !b.Older() || !reflect.DeepEqual(b.Work, want) {
			t.Errorf("%s: kept lines have changed", id)
		}
		anew := b.Anew()
		if anew.Older() || reflect.DeepEqual(anew.Work, want) || anew.Trouble != nil {
			t.Errorf("%s is not drawn anew (%v)", id, anew.Trouble)
		}
		if back := anew.Undo(); !reflect.DeepEqual(back.Work, want) {
			t.Errorf("%s: undo does not bring the old lines back", id)
		}
	}
}
