package motif

import (
	"maps"
	"math"
)

// Lack is a reason why a motif is not offered for a shape.
type Lack string

// The reasons: what an experienced quilter would find wanting (judgements of ours, made on
// sheets of all motifs in all shapes).
const (
	BareTips  Lack = "bare-tips"  // the tips of the shape would stay bare
	Slanting  Lack = "slanting"   // rows turn on straight sides; slanting seams squeeze them
	Crowded   Lack = "crowded"    // its lines crowd where the shape is narrow
	LongLines Lack = "long-lines" // in a strip its rounds are but long lines
	OneMiddle Lack = "one-middle" // it lies about one middle, the rest would stay bare
	RunsAlong Lack = "runs-along" // it runs along a strip; in a block bare bands lie between its rows
)

// Lacks returns all reasons.
func Lacks() []Lack { return []Lack{BareTips, Slanting, Crowded, LongLines, OneMiddle, RunsAlong} }

// strip stands in lacks for a rectangle that is one; Rectangle is there one that is not.
const strip ShapeKind = "strip"

// strip tells that the shape is one, such as a border or a sashing: so many times as long as
// wide.
func (s Shape) strip() bool {
	return s.Kind == Rectangle && math.Max(s.W, s.H) > longStrip*math.Min(s.W, s.H)
}

// longStrip is how many times as long as wide a strip is, at least.
const longStrip = 2.5

// lacks are the shapes for which a motif is not offered.
type lacks map[ShapeKind]Lack

// except returns the same reason for some shapes.
func except(why Lack, shapes ...ShapeKind) lacks {
	out := lacks{}
	for _, k := range shapes {
		out[k] = why
	}
	return out
}

// aboutMiddle are the shapes that have bare ends about a round figure.
var aboutMiddle = except(OneMiddle, Rectangle, strip).and(except(BareTips, HalfSquare, SettingTriangle))

// straightOnly are the shapes without upright and level sides.
var straightOnly = except(Slanting, OnPoint, HalfSquare, SettingTriangle, Hexagon, Octagon, Circle)

// and returns these with more.
func (l lacks) and(more lacks) lacks {
	out := maps.Clone(l)
	if out == nil {
		out = lacks{}
	}
	maps.Copy(out, more)
	return out
}

// Lack returns why the motif is not offered for a shape, "" where it is; Fit fails where it
// is not.
func (m Motif) Lack(s Shape) Lack {
	if s.strip() {
		return m.lacks[strip]
	}
	return m.lacks[s.Kind]
}

// stripSizes are the usual lengths of parameters in a strip, by their ID.
type stripSizes map[string]stripSize

// stripSize is a usual length: a share of the strip's width, at most so many mm. What is
// more is divided into as few rows as are needed, so many of their heights apart.
type stripSize struct{ share, most, pitch float64 }

// size returns the length in mm in a strip of a width in mm.
func (r stripSize) size(width float64) float64 {
	for n := 0; ; n++ {
		if x := width * r.share / (1 + float64(n)*r.pitch); x <= r.most || r.most == 0 {
			return x
		}
	}
}

// inStrips returns a motif that from now on has other usual measures in strips.
func (m Motif) inStrips(r stripSizes) Motif {
	before := m
	m.before = &before
	return m.sized(r)
}

// sized returns the motif with usual measures in strips, measured with other parameters,
// restricted without the shapes in which it lacks something; its version stays.
func (m Motif) sized(r stripSizes) Motif { m.strips = r; return m }

// alongSides returns the motif laid along the sides of a square on point and of a tall
// rectangle; its version stays.
func (m Motif) alongSides() Motif { m.rows = true; return m }

// round returns the motif with another way round a border; its version stays.
func (m Motif) round(lay func(b Border, v Values) (Laid, error)) Motif { m.around = lay; return m }

func (m Motif) measured(params []Param) Motif { m.Params = params; return m }

func (m Motif) restricted(more lacks) Motif { m.lacks = m.lacks.and(more); return m }
