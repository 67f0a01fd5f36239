package scoring

import (
	"encoding/json"
	"os"
	"testing"
	"unthreaded/path/geom"
)

func TestDbg(t *testing.T) {
	text, _ := os.ReadFile("../testdata/hands/" + os.Getenv("HAND") + ".json")
	var k knownHand
	json.Unmarshal(text, &k)
	var path geom.Polyline
	for _, p := range k.Line {
		path = append(path, geom.Pt(p[0], p[1]))
	}
	l := mustLine(t, path)
	rep := score(t, l, k.trace(), Settings{SPM: k.Settings.SPM, TargetMM: k.Settings.Target})
	t.Log(l.Length(), l.Corners)
	t.Logf("fit %+v sewn %v", rep.Order.Lies, rep.Sewn)
	for _, c := range rep.Turns.Corners {
		t.Logf("%+v", c)
	}
	for _, c := range rep.Faults {
		t.Logf("%+v", c)
	}
}
