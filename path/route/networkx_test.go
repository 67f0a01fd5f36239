//go:build unix

package route

import (
	"fmt"
	"math"
	"os/exec"
	"syscall"
	"testing"
	"time"
)

// cpuTime returns the processor time that this process has used.
func cpuTime() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// BenchmarkAgainstNetworkx plans closed routes, smoothing included, side by side
// with networkx, which smooths nothing, in the same run. It reports how many times
// faster, by processor time of either, and the time of the join alone; it fails if
// the two do not agree on what has to be added.
func BenchmarkAgainstNetworkx(b *testing.B) {
	for _, name := range []string{"grid10", "grid20", "grid30", "row12_onepass", "stress2000"} {
		b.Run(name, func(b *testing.B) {
			file := "../../testdata/routes/" + name + ".json"
			in := load(b, file)
			in.Rules.Ends = Ends{Rule: Closed, Start: Nowhere}
			text, err := exec.Command("python3", "testdata/networkx_route.py", file).CombinedOutput()
			var added, seconds float64
			if _, scanErr := fmt.Sscan(string(text), &added, &seconds); err != nil || scanErr != nil {
				b.Skipf("needs python3 with networkx: %v %.200s", err, text)
			}
			began := cpuTime()
			for b.Loop() {
				r, err := Solve(in.Graph, in.Rules)
				if err != nil || math.Abs(r.Added-added) > costTolerance {
					b.Fatalf("added %v, error %v; networkx adds %v", r.Added, err, added)
				}
			}
			ours := (cpuTime() - began).Seconds() / float64(b.N)
			b.ReportMetric(ours*1000, "ms-cpu")
			b.ReportMetric(seconds*1000, "networkx-ms-cpu")
			b.ReportMetric(seconds/ours, "times-faster")
			began = cpuTime()
			for range b.N {
				n := newNetwork(in.Graph, in.Rules)
				if _, _, err := (&finder{n: n}).leastJoin(n.demandOf(in.Rules)); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric((cpuTime()-began).Seconds()*1000/float64(b.N), "join-alone-ms-cpu")
		})
	}
}
