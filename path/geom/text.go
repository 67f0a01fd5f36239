package geom

import (
	"fmt"
	"strconv"
	"strings"
)

// Parse reads a polyline in the path syntax of SVG (W3C Recommendation, SVG 1.1,
// 8.3), as far as absolute M, L and Z go: "M 0 0 L 10 0 L 10 5 Z". Coordinates
// are mm. An error names the word at fault by its position, counted from 1.
func Parse(text string) (Polyline, error) {
	var pl Polyline
	words := strings.Fields(strings.ReplaceAll(text, ",", " "))
	for i := 0; i < len(words); i++ {
		switch words[i] {
		case "M":
			if len(pl) > 0 {
				return nil, fmt.Errorf("word %d: a second M starts another line", i+1)
			}
		case "L":
			if len(pl) == 0 {
				return nil, fmt.Errorf("word %d: L before M", i+1)
			}
		case "Z":
			if len(pl) == 0 || i != len(words)-1 {
				return nil, fmt.Errorf("word %d: Z stands only at the end of a line", i+1)
			}
			return append(pl, pl[0]), nil
		default:
			p, err := parsePoint(words, i)
			if err != nil {
				return nil, err
			}
			if len(pl) == 0 && (i == 0 || words[i-1] != "M") {
				return nil, fmt.Errorf("word %d: a line starts with M", i+1)
			}
			pl = append(pl, p)
			i++
		}
	}
	return pl, nil
}

func parsePoint(words []string, i int) (Point, error) {
	if i+1 >= len(words) {
		return Point{}, fmt.Errorf("word %d: %q has no second coordinate", i+1, words[i])
	}
	x, err := strconv.ParseFloat(words[i], 64)
	if err != nil {
		return Point{}, fmt.Errorf("word %d: %q is no coordinate", i+1, words[i])
	}
	y, err := strconv.ParseFloat(words[i+1], 64)
	if err != nil {
		return Point{}, fmt.Errorf("word %d: %q is no coordinate", i+2, words[i+1])
	}
	if p := Pt(x, y); Finite(p) {
		return p, nil
	}
	return Point{}, fmt.Errorf("word %d: the place (%s, %s) is not finite", i+1, words[i], words[i+1])
}

// MustParse is Parse for lines written in the source; it panics on an error.
func MustParse(text string) Polyline {
	pl, err := Parse(text)
	if err != nil {
		panic(fmt.Sprintf("geom: %q: %v", text, err))
	}
	return pl
}

// Format writes the polyline so that Parse gives the same points back.
func Format(pl Polyline) string {
	var b strings.Builder
	for i, p := range pl {
		switch i {
		case 0:
			b.WriteString("M")
		default:
			b.WriteString(" L")
		}
		b.WriteString(" " + strconv.FormatFloat(p.X, 'g', -1, 64) + " " + strconv.FormatFloat(p.Y, 'g', -1, 64))
	}
	return b.String()
}
