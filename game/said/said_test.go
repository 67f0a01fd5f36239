package said

import (
	"strings"
	"testing"

	"unthreaded/game/words"
	"unthreaded/scoring"
)

// kinds are all kinds of fault, and none.
var kinds = []scoring.FaultKind{"", scoring.AnotherFigure, scoring.Backwards, scoring.MissedLine, scoring.MissedDot, scoring.EarlyDot,
	scoring.SewnTwice, scoring.AnotherSize, scoring.AllAside, scoring.KnotHere, scoring.Unsteady, scoring.SlowCurves, scoring.TooSlow,
	scoring.TooFast, scoring.Hesitated, scoring.AllUneven, scoring.Overshot, scoring.CutCorner, scoring.Aside, scoring.PastEnd, scoring.OffPace}

func anySpeed(float64) error { return nil }

// Of every fault, wherever on the line, there are two sentences in words of the trade,
// short enough to be read while holding a pen.
func TestEveryFaultIsSaid(t *testing.T) {
	rep := scoring.Report{LineMM: 200, Settings: scoring.Settings{SPM: 600, TargetMM: 2.54}}
	for _, kind := range kinds {
		for _, at := range []float64{0, 50, 200} {
			for _, inches := range []bool{false, true} {
				a := scoring.Advice{
					Word: scoring.SaidFine, Fault: scoring.Fault{Kind: kind, From: at, To: at, At: at, Size: 0.7, Number: 2},
					Share: at / 200, Side: scoring.Left, ThereMM: 1.1, UsualMM: 2.54, Piled: 4, AimMMS: 25.4,
				}
				b := words.Book{Lang: words.English, Inches: inches}
				for _, text := range []string{
					b.Write(What(a, rep, Where(a.Share))), b.Write(Do(a, rep, anySpeed, inches)),
				} {
					if len(text) < 12 || len(text) > 90 || !strings.HasSuffix(text, ".") || strings.Count(text, ". ") > 0 && kind != "" {
						t.Errorf("%q at %v: %d letters: %q", kind, at, len(text), text)
					}
					for _, term := range []string{"CV", "kappa", "curvature", "variance", "exponent", "Frechet", "NaN", "%!", "spm", "{"} {
						if strings.Contains(text, term) {
							t.Errorf("%q: %q says %q", kind, text, term)
						}
					}
				}
			}
		}
	}
}

// The stitches she made stand beside those she meant, in her units.
func TestStitchesStandSideBySide(t *testing.T) {
	a := scoring.Advice{Fault: scoring.Fault{Kind: scoring.TooSlow, Size: 0.5}, ThereMM: 1.27, UsualMM: 2.54, Share: 0.5}
	for inches, want := range map[bool]string{
		true:  "Half way along you slowed to half: 20 to the inch instead of 10.",
		false: "Half way along you slowed to half: 1.3 mm instead of 2.5.",
	} {
		if got := (words.Book{Inches: inches}).Write(What(a, scoring.Report{}, Where(a.Share))); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	a = scoring.Advice{Fault: scoring.Fault{Kind: scoring.AllUneven}, AimMMS: 25.4}
	if got := (words.Book{Inches: true}).Write(Do(a, scoring.Report{}, anySpeed, true)); got != "Aim at 1 inch a second throughout." {
		t.Errorf("%q", got)
	}
}

// Why a figure is missing is said for each reason.
func TestEveryReasonIsSaid(t *testing.T) {
	for _, r := range []scoring.Reason{scoring.NoPlan, scoring.NoMovement, scoring.NoNumber, scoring.NoSwing, scoring.NotReached,
		scoring.NeverNear, scoring.TooFar, scoring.TooShort, scoring.FewStitches, scoring.FewCurves, scoring.AlikeCurves,
		scoring.LongLine, scoring.Unsettled, scoring.CoarsePixels, scoring.HiddenByPixels} {
		if text := (words.Book{}).Write(Why(scoring.Figure{Why: r, Least: 0.1})); text == "" {
			t.Errorf("%s: nothing said", r)
		}
	}
}
