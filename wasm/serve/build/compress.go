package build

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/andybalholm/brotli"
)

// Suffixes of the compressed forms beside a file of the site.
const (
	GzipSuffix   = ".gz"
	BrotliSuffix = ".br"
)

// minCompress is the size in bytes under which compression is not tried: such a
// file travels in one packet anyway (the payload of a TCP segment on Ethernet is
// some 1400 bytes, headers of the answer included).
const minCompress = 1024

// compressAll writes the compressed forms of the named files beside them and
// returns all sizes. Forms are kept in the work folder under the hash of their
// input, so that only changed files cost time.
func compressAll(o Options, names []string) ([]File, error) {
	store := formStore{dir: filepath.Join(o.Work, "compressed"), used: map[string]bool{}}
	files := make([]File, 0, len(names))
	for _, name := range slices.Sorted(slices.Values(names)) {
		f, err := store.compressFile(filepath.Join(o.Out, filepath.FromSlash(name)), o.Quality)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		f.Name = name
		files = append(files, f)
	}
	return files, store.prune()
}

// formStore is a folder of compressed forms named by the hash of their input.
type formStore struct {
	dir  string
	used map[string]bool // hashes seen in this build
}

func (s formStore) compressFile(path string, quality int) (File, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return File{}, err
	}
	sum := sha256.Sum256(data)
	hash := hex.EncodeToString(sum[:16])
	s.used[hash] = true
	f := File{Raw: int64(len(data))}
	f.Gzip, err = s.form(path, GzipSuffix, hash+".gz", data, func(w io.Writer) (io.WriteCloser, error) {
		return gzip.NewWriterLevel(w, gzip.BestCompression)
	})
	if err != nil {
		return f, err
	}
	f.Brotli, err = s.form(path, BrotliSuffix, fmt.Sprintf("%s.br%d", hash, quality), data, func(w io.Writer) (io.WriteCloser, error) {
		return brotli.NewWriterLevel(w, quality), nil
	})
	return f, err
}

// form writes one compressed form of data beside path and returns its size, or 0
// when there is no gain in it.
func (s formStore) form(path, suffix, key string, data []byte, open func(io.Writer) (io.WriteCloser, error)) (int64, error) {
	if len(data) < minCompress {
		return 0, nil
	}
	cached := filepath.Join(s.dir, key)
	packed, err := os.ReadFile(cached)
	if err != nil {
		if packed, err = pack(data, open); err != nil {
			return 0, err
		}
		if err := writeWhole(cached, packed); err != nil {
			return 0, err
		}
	}
	if len(packed) >= len(data) {
		return 0, nil
	}
	return int64(len(packed)), writeFile(path+suffix, packed)
}

func pack(data []byte, open func(io.Writer) (io.WriteCloser, error)) ([]byte, error) {
	var b bytes.Buffer
	w, err := open(&b)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// prune deletes the forms of files which this build no longer holds, but not the
// unfinished ones of another build that runs now.
func (s formStore) prune() error {
	entries, err := os.ReadDir(s.dir)
	if err != nil && !os.IsNotExist(err) {
		return err
	}
	for _, e := range entries {
		hash, _, _ := strings.Cut(e.Name(), ".")
		if s.used[hash] || strings.HasPrefix(hash, unfinished) {
			continue
		}
		if err := os.Remove(filepath.Join(s.dir, e.Name())); err != nil && !os.IsNotExist(err) {
			return err
		}
	}
	return nil
}

// unfinished begins the name of a file that is still being written.
const unfinished = "new-"

// writeWhole writes a file that other builds may read at the same time: they see
// all of it or nothing.
func writeWhole(path string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	tmp, err := os.CreateTemp(filepath.Dir(path), unfinished+"*")
	if err != nil {
		return err
	}
	_, err = tmp.Write(data)
	if cerr := tmp.Close(); err == nil {
		err = cerr
	}
	if err == nil {
		err = os.Rename(tmp.Name(), path)
	}
	if err != nil {
		os.Remove(tmp.Name())
	}
	return err
}
