package game_test

import (
	"flag"
	"os"
	"testing"
)

// TestMain draws fewer values for each property than rapid would by itself: each is a
// whole visit, with traces that are measured.
func TestMain(m *testing.M) {
	if err := flag.Set("rapid.checks", "25"); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}
