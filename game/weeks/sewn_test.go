package weeks

import (
	"strings"
	"testing"
)

func TestSewnDocuments(t *testing.T) {
	s := piece(40, 101.6, 600)
	s.Note, s.Photo = "batting was thick", "p1"
	doc, err := EncodeSewn(s)
	if err != nil {
		t.Fatal(err)
	}
	if back, err := DecodeSewn(doc); err != nil || back != s {
		t.Errorf("came back as %+v (%v)", back, err)
	}
	for _, c := range []struct{ from, to, want string }{
		{`"schema":1`, `"schema":2`, "newer version"},
		{`"schema":1`, `"schema":0`, "names no form"},
		{`"day":"2026-03-01"`, `"day":"March"`, "is no date"},
		{`"stitches":40`, `"stitches":0`, "0 stitches"},
		{`"length_mm":101.6`, `"length_mm":-1`, "a length of -1 mm"},
		{`"spm":600`, `"spm":0`, "needle speeds"},
		{`"id":"a"`, `"id":""`, "has no id"},
		{`"rehearsed_mm":2.54`, `"rehearsed_mm":"x"`, "no note"},
	} {
		bad := strings.Replace(string(doc), c.from, c.to, 1)
		if bad == string(doc) {
			t.Errorf("%q does not stand in the document", c.from)
		} else if _, err := DecodeSewn([]byte(bad)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", c.to, err, c.want)
		}
	}
}

func FuzzDecodeSewn(f *testing.F) {
	doc, err := EncodeSewn(piece(40, 101.6, 600))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(doc)
	f.Add([]byte(`{"schema":1,"id":"a","stitches":1e9}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		s, err := DecodeSewn(doc)
		if err != nil {
			return
		}
		again, err := EncodeSewn(s)
		if err != nil {
			t.Fatalf("read but cannot be written: %v", err)
		}
		if _, err := DecodeSewn(again); err != nil {
			t.Fatalf("written but cannot be read: %v", err)
		}
	})
}
