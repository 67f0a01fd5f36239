package progress

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

func BenchmarkJudge(b *testing.B) {
	for _, n := range []int{20, 60, 200} {
		scores := learner{plateau: 0.15, gain: 0.2, rate: 0.1, day: 0.1, trace: 0.15}.practise(rand.New(rand.NewPCG(1, 2)), n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := Judge(scores, Spacing); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkLearningCurve(b *testing.B) {
	for _, n := range []int{20, 60, 200} {
		y := noisy(rand.New(rand.NewPCG(1, 2)), Curve{Plateau: 0.15, Gain: 0.25, Rate: 0.2}, n, 0.02)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := LearningCurve(y); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
