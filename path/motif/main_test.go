package motif

import (
	"flag"
	"os"
	"testing"
)

// TestMain draws fewer values for each property than rapid would by itself: there are many
// motifs, and some lines take a tenth of a second to make.
func TestMain(m *testing.M) {
	if err := flag.Set("rapid.checks", "20"); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}
