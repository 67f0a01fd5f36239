package weeks

import (
	"strings"
	"testing"
)

func TestSewnDocuments(t *testing.T) {
	s := piece(40, 101.6, 600)
	s.Note, s.Photo, s.Typed = "batting was thick", "p1", "4 in"
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

// A note from before lengths were kept as typed is read, and written as it was.
func TestOlderSewnDocument(t *testing.T) {
	const old = `{"schema":1,"id":"17645310000000","day":"2025-11-30","stitches":40,"length_mm":101.6,"spm":600,"rehearsed_mm":2.54,"rehearsed_spm":600,"traces":0}`
	s, err := DecodeSewn([]byte(old))
	if err != nil || s.Typed != "" {
		t.Fatalf("%+v (%v)", s, err)
	}
	if doc, err := EncodeSewn(s); err != nil || string(doc) != old {
		t.Errorf("written as %s (%v)", doc, err)
	}
	// 1764531000 s after 1970 began is 2025-11-30 19:30 UTC, as date -u -d @1764531000 says.
	const form = "2006-01-02 15:04"
	if day, noted, on := s.Days(nil); on != NotedThen || day.Format(form) != "2025-11-30 00:00" || noted.Format(form) != "2025-11-30 19:30" {
		t.Errorf("sewn %v, noted %v (%s)", day, noted, on)
	}
	s.Day = "2025-11-29"
	if day, noted, on := s.Days(Zone{{0, 3600}}); on != NotedLater || day.Format(form) != "2025-11-29 00:00" || noted.Format(form) != "2025-11-30 20:30" {
		t.Errorf("noted on another day: %v, %v (%s)", day, noted, on)
	}
	s.ID = "from elsewhere"
	if _, _, on := s.Days(nil); on != NotedNever {
		t.Errorf("without a time: %s", on)
	}
}

// Stitches that machines sew are believed, from long basting to fine ones: 3 to 30 to the
// inch (common practice).
func TestBelieved(t *testing.T) {
	for n, want := range map[int]bool{11: false, 12: true, 40: true, 120: true, 121: false, 3200: false} {
		if got := piece(n, 101.6, 600).Believed(); got != want {
			t.Errorf("%d stitches in 4 in: believed %v", n, got)
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
