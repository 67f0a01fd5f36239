package lesson

import (
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/scoring/practice"
	"unthreaded/scoring/progress"
)

// What is kept comes back as it was.
func TestDocumentsComeBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := anyCourse(rt)
		doc, err := EncodeCourse(c)
		if err != nil {
			rt.Fatal(err)
		}
		if back, err := DecodeCourse(doc); err != nil || !reflect.DeepEqual(back, c) {
			rt.Fatalf("came back as %+v (%v), was %+v", back, err, c)
		}
		w, err := Warm(rapid.SampledFrom(practice.Lengths).Draw(rt, "minutes"), []practice.WeakSpot{{Movement: progress.Loop, Weight: 0.5}}, own("b"), 3, 50)
		if err != nil {
			rt.Fatal(err)
		}
		w = w.Advance(rapid.Float64Range(0, 900).Draw(rt, "dt"), 60, false)
		doc, err = EncodeWarmUp(w)
		if err != nil {
			rt.Fatal(err)
		}
		if back, err := DecodeWarmUp(doc); err != nil || !reflect.DeepEqual(back, w) {
			rt.Fatalf("came back as %+v (%v), was %+v", back, err, w)
		}
	})
}

// anyCourse is a course somewhere on its way.
func anyCourse(rt *rapid.T) Course {
	c, err := Begin(practice.Seed(rapid.Uint64().Draw(rt, "seed")), own("block-1"), []Line{ready("loops"), ready("waves"), own("block-1")})
	if err != nil {
		rt.Fatal(err)
	}
	at := 1e9
	for range rapid.IntRange(0, 25).Draw(rt, "steps") {
		at += rapid.Float64Range(10, 4000).Draw(rt, "pause")
		switch rapid.IntRange(0, 6).Draw(rt, "what") {
		case 0:
			c = c.Skip()
		case 1:
			c = c.Again()
		case 2:
			c, err = c.Learn(own("block-2"))
		case 3:
			c = c.Ask(rapid.SampledFrom([]string{"", "trace-1"}).Draw(rt, "asked"))
		case 4:
			c = c.Said(practice.Even, practice.Bands[rapid.IntRange(0, 3).Draw(rt, "band")])
		default:
			c, _, err = c.Made(at, 8, rapid.Float64Range(0, 1).Draw(rt, "share"))
		}
		if err != nil {
			rt.Fatal(err)
		}
	}
	return c
}

func TestDamagedDocumentsSayWhatIsWrong(t *testing.T) {
	c, err := Begin(1, own("block-1"), []Line{ready("loops")})
	if err != nil {
		t.Fatal(err)
	}
	course, err := EncodeCourse(c)
	if err != nil {
		t.Fatal(err)
	}
	w, err := Warm(3, nil, own("block-1"), 1, 0)
	if err != nil {
		t.Fatal(err)
	}
	warm, err := EncodeWarmUp(w)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []struct{ doc, from, to, want string }{
		{string(course), `{"schema":1,"on"`, `{"schema":9,"on"`, "newer version"},
		{string(course), `"id":"loops"`, `"id":"lopps"`, `line 1 is "lopps"`},
		{string(course), `"guessed":0,"right":0`, `"guessed":0,"right":1`, "1 of 0 guesses"},
		{string(course), `"points_mm":[[0,0]`, `"points_mm":[[0,0]],"x":[[0,0]`, "its path"},
		{string(course), `"row":`, `"row":1`, "a row of 1"},
		{string(warm), `"schema":1`, `"schema":0`, "names no form"},
		{string(warm), `"item":0`, `"item":3`, "minute 3 of 3"},
		{string(warm), `"elapsed_s":0`, `"elapsed_s":-1`, "-1 s of it"},
		{string(warm), `"seconds":60`, `"seconds":0`, "minute 0"},
		{string(warm), `"id":"block-1"`, `"id":""`, "the block"},
	} {
		doc := strings.Replace(f.doc, f.from, f.to, 1)
		if doc == f.doc {
			t.Errorf("%q does not stand in %s", f.from, f.doc)
			continue
		}
		_, err := DecodeCourse([]byte(doc))
		if f.doc == string(warm) {
			_, err = DecodeWarmUp([]byte(doc))
		}
		if err == nil || !strings.Contains(err.Error(), f.want) {
			t.Errorf("%s: %v, want %q", f.to, err, f.want)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte(`{"schema":1,"course":{},"lines":[]}`))
	f.Add([]byte(`{"schema":1,"items":[{"movement":"loop","size_mm":8,"tempo":1,"seconds":60},{"tempo":1,"seconds":60,"block":"b"}],"block":{"id":"b"}}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		if c, err := DecodeCourse(doc); err == nil {
			c.Step(1e9)
			if _, err := EncodeCourse(c.Skip().Anew()); err != nil {
				t.Fatalf("read but cannot be gone on with: %v", err)
			}
		}
		if w, err := DecodeWarmUp(doc); err == nil {
			w.Motif()
			if _, err := EncodeWarmUp(w.Advance(1, 1, false).Skip()); err != nil {
				t.Fatalf("read but cannot be gone on with: %v", err)
			}
		}
	})
}
