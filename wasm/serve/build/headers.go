package build

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// HeadersFile says in the form that several hosts of static files read which headers to
// send: a pattern of addresses, and below it, indented, a header a line.
const HeadersFile = "_headers"

// policy lets the page load nothing from elsewhere and send nothing away.
// 'wasm-unsafe-eval' permits compiling WebAssembly and no eval of text (Content
// Security Policy Level 3). Pictures may also come from memory: photos that the
// user opens and pictures that the page makes for download.
const policy = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; connect-src 'self'; " +
	"img-src 'self' blob: data:; object-src 'none'; base-uri 'none'; form-action 'none'"

// Header is a line of the answer of a host.
type Header struct{ Name, Value string }

// Headers are what each answer should carry. The two cross-origin policies cut the page
// off from others, which gives it the finer clock: steps of 5 us instead of 100 us (W3C
// High Resolution Time, clock resolution). That no other site may show the page in a
// frame can be said by a header only: in a meta element it counts for nothing (CSP
// Level 3, 3.3). The page asks for nothing that needs leave but to keep the screen awake.
func Headers() []Header {
	return []Header{
		{"Content-Security-Policy", policy + "; frame-ancestors 'none'"},
		{"Cross-Origin-Opener-Policy", "same-origin"},
		{"Cross-Origin-Embedder-Policy", "require-corp"},
		{"Cross-Origin-Resource-Policy", "same-origin"},
		{"Permissions-Policy", "camera=(), display-capture=(), geolocation=(), microphone=(), payment=(), usb=(), screen-wake-lock=(self)"},
		{"X-Content-Type-Options", "nosniff"},
		{"Referrer-Policy", "no-referrer"},
	}
}

func writeHeaders(out string) error {
	var b strings.Builder
	b.WriteString("/*\n")
	for _, h := range Headers() {
		fmt.Fprintf(&b, "  %s: %s\n", h.Name, h.Value)
	}
	return os.WriteFile(filepath.Join(out, HeadersFile), []byte(b.String()), 0o644)
}

var firstMeta = []byte(`<meta charset="utf-8">`)

// withPolicy puts the policy into a page, for hosts that send no headers. It fails on a
// page without the line it stands behind.
func withPolicy(page []byte) ([]byte, error) {
	if bytes.Count(page, firstMeta) != 1 {
		return nil, fmt.Errorf("it does not hold %s once", firstMeta)
	}
	meta := fmt.Sprintf("%s\n<meta http-equiv=\"Content-Security-Policy\" content=\"%s\">", firstMeta, policy)
	return bytes.Replace(page, firstMeta, []byte(meta), 1), nil
}
