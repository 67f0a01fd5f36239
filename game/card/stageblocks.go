package card

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/sewing"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/route/steps"
)

// blockPart is a different block with the part of the page that it has.
type blockPart struct {
	used
	turn  float64
	level bool // laid level though it stands upright on the quilt
	in    rect
}

// differentBlocks shows the moves of each different block of the stage once, as large
// as all have room.
func differentBlocks(pg *Page, j sewing.Job, d drawn, blocks []used, turn float64, in rect) {
	c := column{page: pg, x: in.x, w: in.w, y: in.y, bottom: in.y + in.h}
	c.head(j.Book.Say("card.moves", len(blocks)))
	more := len(blocks) - mostBlocks
	if more > 0 {
		blocks = blocks[:mostBlocks]
		c.write(j.Book.Say("card.blocks-more", more), smallSize, ink.Mute)
	}
	in.h, in.y = in.y+in.h-c.y-1, c.y+1
	for _, p := range parted(d, blocks, turn, in) {
		blockMoves(pg, j, d, p)
	}
}

// Strips are laid level, so that they are large: those longer than so many times their
// breadth take half of the page's width, the longest all of it.
const (
	stripFrom = 3.0
	longFrom  = 8.0
)

// parted shares the room out: long strips over the whole width and short ones two
// beside each other come first, blocks in as many columns as make them largest.
func parted(d drawn, blocks []used, turn float64, in rect) []blockPart {
	var long, strips, rest, out []blockPart
	size := func(p blockPart) (w, h float64) {
		lo, hi := d.cells[p.legs[0]].Outline().Map(topView{turn: p.turn, scale: 1}.onPage).Bounds()
		return hi.X - lo.X, hi.Y - lo.Y
	}
	for _, u := range blocks {
		p := blockPart{used: u, turn: turn}
		w, h := size(p)
		if h > stripFrom*w {
			p.turn, p.level = turn-math.Pi/2, true
			w, h = h, w
		}
		switch {
		case w > longFrom*h:
			long = append(long, p)
		case w > stripFrom*h:
			strips = append(strips, p)
		default:
			rest = append(rest, p)
		}
	}
	row := func(list []blockPart, cols int) {
		for i, p := range list {
			w, h := size(p)
			wide := in.w / float64(cols)
			p.in = rect{in.x + float64(i%cols)*wide, in.y, wide, min(28, h/w*(wide-2*blockEdge)) + 2*blockEdge + captionMM}
			out = append(out, p)
			if i%cols == cols-1 || i == len(list)-1 {
				in.y, in.h = in.y+p.in.h, in.h-p.in.h
			}
		}
	}
	row(long, 1)
	row(strips, 2)
	if len(rest) == 0 {
		return out
	}
	best, cols := 0.0, 1
	for n := 1; n <= min(4, len(rest)); n++ {
		least := math.Inf(1)
		for _, p := range rest {
			w, h := size(p)
			rows := (len(rest) + n - 1) / n
			least = min(least, (in.w/float64(n)-2*blockEdge)/w, (in.h/float64(rows)-2*blockEdge-captionMM)/h)
		}
		if least > best {
			best, cols = least, n
		}
	}
	rows := (len(rest) + cols - 1) / cols
	w, h := in.w/float64(cols), in.h/float64(rows)
	for i, p := range rest {
		p.in = rect{in.x + float64(i%cols)*w, in.y + float64(i/cols)*h, w, h}
		out = append(out, p)
	}
	return out
}

// blockEdge is the room in mm round a block's picture, for numbers at its edge.
const blockEdge = 5.5

// blockMoves draws the moves of a program where it is sewn first, numbered, and says
// in which places it is sewn.
func blockMoves(pg *Page, j sewing.Job, d drawn, p blockPart) {
	leg, moves := p.legs[0], d.moves[p.legs[0]]
	room := rect{p.in.x + blockEdge, p.in.y + blockEdge, max(1, p.in.w-2*blockEdge), max(1, p.in.h-2*blockEdge-captionMM)}
	v := viewOf(p.turn, d.cells[leg].Outline(), room)
	v.path(pg, 0.2, ink.Mute, d.cells[leg].Outline())
	width := max(0.35, min(0.7, v.scale*1.2))
	mm := 0.0
	for _, m := range moves {
		v.sewn(pg, width, m)
		mm += m.Length
	}
	moveNumbers(pg, v, moves)
	end := moves[len(moves)-1].Path
	pg.rule(0.5, ink.Ink, geom.Arc(v.onPage(end[len(end)-1]), 2, 0, 2*math.Pi)...)
	pg.rule(2.8, ink.Ink, v.onPage(moves[0].Path[0]))
	text := j.Book.Say("card.block-moves", legList(j.Book, p.legs), len(p.legs), len(moves), words.LengthMM(mm))
	if p.level {
		text = j.Book.Say("card.level", text)
	}
	lo, hi := d.cells[leg].Outline().Map(v.onPage).Bounds()
	c := column{page: pg, x: max(p.in.x, lo.X-4), y: hi.Y + blockEdge, bottom: p.in.y + p.in.h + 1}
	c.w = p.in.x + p.in.w - c.x
	c.write(text, smallSize, ink.Ink)
}

// moveNumbers numbers the moves as far as the numbers have room, each with an arrow, a long
// one with another where it begins; a single move has no number.
func moveNumbers(pg *Page, v topView, moves []steps.Move) {
	last := moves[len(moves)-1].Path
	taken := []geom.Point{v.onPage(moves[0].Path[0]), v.onPage(last[len(last)-1])}
	free := func(p geom.Point, room float64) bool {
		for _, q := range taken {
			if geom.Dist(p, q) < room {
				return false
			}
		}
		return true
	}
	for i, m := range moves {
		l, err := geom.NewLine(m.Path.Map(v.onPage))
		if err != nil || m.Kind == steps.StopMove {
			continue
		}
		tip := l.At(0.62 * l.Length())
		if long, begun := 40.0, 10.0; l.Length() > long && free(l.At(begun), 3.2) {
			taken = append(taken, l.At(begun))
			v.arrow(pg, 3, begun/l.Length(), ink.Thread, m.Path)
		}
		for _, side := range []float64{3.2, -3.2} {
			s := 0.4 * l.Length()
			u := l.Tangent(s)
			p := r2.Add(l.At(s), r2.Scale(side, geom.Pt(-u.Y, u.X)))
			if !free(p, badgeRoom(smallSize)) || !free(tip, 3.2) {
				continue
			}
			taken = append(taken, p)
			if len(moves) > 1 {
				badge(pg, i+1, smallSize, p, false)
			}
			if l.Length() > 4 {
				taken = append(taken, tip)
				v.arrow(pg, 3, 0.62, ink.Thread, m.Path)
			}
			break
		}
	}
}

// legList names the legs: "1, 3 to 5".
func legList(b words.Book, legs []int) string {
	var out words.List
	for i := 0; i < len(legs); {
		k := i
		for k+1 < len(legs) && legs[k+1] == legs[k]+1 {
			k++
		}
		if k > i+1 {
			out = append(out, words.Span{Low: legs[i] + 1, High: legs[k] + 1})
			i = k + 1
			continue
		}
		out, i = append(out, legs[i]+1), i+1
	}
	return b.Amount(out)
}
