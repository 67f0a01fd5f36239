package build

import (
	"fmt"
	"io"
	"text/tabwriter"
)

// WriteSizes prints the files of the site with their sizes in bytes, and the sum
// of those that a first visit transfers: all but the licences. A file without a
// compressed form counts with its plain size.
func (r Report) WriteSizes(w io.Writer) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "raw\tgzip\tbrotli\t\tfile")
	var sum File
	for _, f := range r.Files {
		if f.Gzip == 0 {
			f.Gzip = f.Raw
		}
		if f.Brotli == 0 {
			f.Brotli = f.Raw
		}
		fmt.Fprintf(t, "%d\t%d\t%d\t\t%s\n", f.Raw, f.Gzip, f.Brotli, f.Name)
		if f.Name == LicencesFile {
			continue
		}
		sum.Raw, sum.Gzip, sum.Brotli = sum.Raw+f.Raw, sum.Gzip+f.Gzip, sum.Brotli+f.Brotli
	}
	fmt.Fprintf(t, "%d\t%d\t%d\t\tfirst visit\n", sum.Raw, sum.Gzip, sum.Brotli)
	return t.Flush()
}
