package svg

import (
	"fmt"
	"io"
)

// maxEquals bounds the signs of equality within one tag. It is above
// maxAttributes because values may hold some too.
const maxEquals = 4 * maxAttributes

// tagGuard passes a file on until a tag has so many attributes that the XML reader,
// which gathers all of a tag before anyone can look at it, would fill the memory:
// 3 million took 500 MB. It knows tags by their angle brackets alone, which values
// of attributes do not hold as often as a tag is long.
type tagGuard struct {
	r      io.Reader
	within bool
	equals int
}

// Read gives the bytes of the file.
func (g *tagGuard) Read(p []byte) (int, error) {
	n, err := g.r.Read(p)
	for i, b := range p[:n] {
		switch b {
		case '<':
			g.within, g.equals = true, 0
		case '>':
			g.within = false
		case '=':
			if g.equals++; g.within && g.equals > maxEquals {
				return i, fmt.Errorf("a tag has more than %d attributes", maxEquals)
			}
		}
	}
	return n, err
}
