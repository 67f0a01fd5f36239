package place_test

import (
	"regexp"
	"strconv"
	"testing"

	"unthreaded/game/place"
	"unthreaded/path/motif"
)

// The picture of a block is all of it; of a strip, however long, one end, as large as if the
// strip were two and a half times as long as wide, and no longer for all that is left out.
func TestPicturesOfStrips(t *testing.T) {
	numbers := regexp.MustCompile(`[\d.]+`)
	most := func(path string) (x float64) {
		for i, n := range numbers.FindAllString(path, -1) {
			if v, _ := strconv.ParseFloat(n, 64); i%2 == 0 {
				x = max(x, v)
			}
		}
		return x
	}
	waves, _ := motif.Find("waves")
	picture := func(w float64) (lines, rim string) {
		s := motif.Shape{Kind: motif.Rectangle, W: w, H: 40}
		pieces, err := waves.Fit(s, 4, waves.Usual(s))
		if err != nil {
			t.Fatal(err)
		}
		return place.Picture(s, pieces), place.OutlinePicture(s)
	}
	if lines, rim := picture(90); most(lines) >= 100 || most(rim) != 100 {
		t.Errorf("a short strip goes to %v, its rim to %v of 100", most(lines), most(rim))
	}
	short, rim := picture(400)
	long, _ := picture(2800)
	if most(short) <= 100 || most(rim) <= 100 {
		t.Errorf("an end of a strip looks as if it were all of it: %v, %v", most(short), most(rim))
	}
	if len(long) > 2*len(short) {
		t.Errorf("the picture of a strip of 2.8 m has %d bytes, of one of 0.4 m %d", len(long), len(short))
	}
}
