package progress

import "testing"

// nativeOnly leaves a test of a thousand simulated learners out of a short run: the
// figures under js/wasm are the same, and take many times as long.
func nativeOnly(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("simulated learners are left out of a short run")
	}
}
