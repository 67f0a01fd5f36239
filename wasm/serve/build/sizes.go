package build

import (
	"fmt"
	"io"
	"text/tabwriter"
)

// WriteSizes prints the files of the site with their sizes in bytes, and two sums: of
// those that are transferred until the first trace can be made, all but the licences and
// the second program, and of those with it. A file without a compressed form counts with
// its plain size.
func (r Report) WriteSizes(w io.Writer) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "raw\tgzip\tbrotli\t\tfile")
	var sum, second File
	for _, f := range r.Files {
		if f.Gzip == 0 {
			f.Gzip = f.Raw
		}
		if f.Brotli == 0 {
			f.Brotli = f.Raw
		}
		fmt.Fprintf(t, "%d\t%d\t%d\t\t%s\n", f.Raw, f.Gzip, f.Brotli, f.Name)
		switch f.Name {
		case LicencesFile:
		case SecondFile:
			second = f
		default:
			sum = sum.plus(f)
		}
	}
	both := sum.plus(second)
	fmt.Fprintf(t, "%d\t%d\t%d\t\tuntil the first trace\n", sum.Raw, sum.Gzip, sum.Brotli)
	fmt.Fprintf(t, "%d\t%d\t%d\t\twith the second program\n", both.Raw, both.Gzip, both.Brotli)
	return t.Flush()
}

// plus returns the sizes of both files together.
func (f File) plus(g File) File {
	return File{Raw: f.Raw + g.Raw, Gzip: f.Gzip + g.Gzip, Brotli: f.Brotli + g.Brotli}
}
