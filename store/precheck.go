package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/dgraph-io/badger/v4"
	"github.com/dgraph-io/badger/v4/pb"
	"github.com/dgraph-io/badger/v4/table"
	"github.com/dgraph-io/badger/v4/y"
	"google.golang.org/protobuf/proto"
)

// precheck looks, before badger does, at what badger cannot deal with:
//
//   - It meets a damaged end of a table with a panic in a goroutine of its own,
//     where nobody can catch it. Such a table gives ErrCorrupt.
//   - It deletes tables that the MANIFEST does not name. A MANIFEST that names
//     none beside tables and no log gives ErrCorrupt.
//   - It takes damage of a log for its end: see checkLogs.
//   - It does not open an empty log, which it leaves behind when the process
//     ends just before a new log gets its size or while an old one is removed.
//     There is nothing in it: it is removed.
func precheck(dir string, o badger.Options, salvage bool) error {
	if !o.BypassLockGuard {
		lock, err := lockDir(dir)
		if err != nil {
			return err
		}
		defer lock.Close()
	}
	if err := removeEmptyLogs(dir); err != nil {
		return fmt.Errorf("open store: %w", err)
	}
	if !salvage {
		if err := checkLogs(dir); err != nil {
			return err
		}
	}
	f, err := os.Open(filepath.Join(dir, badger.ManifestFilename))
	if errors.Is(err, os.ErrNotExist) {
		return nil // a new store
	}
	if err != nil {
		return fmt.Errorf("open store: %w", err)
	}
	defer f.Close()
	manifest, _, err := badger.ReplayManifestFile(f, 0, o)
	if err != nil {
		return corrupt(dir, err)
	}
	for id := range manifest.Tables {
		name := table.NewFilename(id, dir)
		if err := checkTableEnd(name); err != nil {
			return corrupt(dir, fmt.Errorf("%s: %w", filepath.Base(name), err))
		}
	}
	if len(manifest.Tables) == 0 {
		tables, _ := filepath.Glob(filepath.Join(dir, "*.sst"))
		logs, _ := filepath.Glob(filepath.Join(dir, "*.mem"))
		if len(tables) > 0 && len(logs) == 0 {
			return corrupt(dir, errors.New("the MANIFEST is cut off"))
		}
	}
	return nil
}

func removeEmptyLogs(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if ext := filepath.Ext(e.Name()); ext != ".mem" && ext != ".vlog" {
			continue
		}
		if info, err := e.Info(); err != nil || info.Size() > 0 {
			continue
		}
		if err := os.Remove(filepath.Join(dir, e.Name())); err != nil {
			return err
		}
	}
	return nil
}

// checkTableEnd reads the end of a table: its index, the index's length, a
// checksum of the index and that one's length, each length 4 bytes.
func checkTableEnd(name string) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return err
	}
	r := backwards{f, info.Size()}
	sum, err := r.counted(1 << 10)
	if err != nil {
		return err
	}
	var want pb.Checksum
	if err := proto.Unmarshal(sum, &want); err != nil {
		return err
	}
	index, err := r.counted(r.end)
	if err != nil {
		return err
	}
	return y.VerifyChecksum(index, &want)
}

// backwards reads a file from its end.
type backwards struct {
	f   io.ReaderAt
	end int64
}

// counted reads a length of at most max and the bytes before it.
func (r *backwards) counted(max int64) ([]byte, error) {
	length, err := r.read(4)
	if err != nil {
		return nil, err
	}
	n := int64(binary.BigEndian.Uint32(length))
	if n > max {
		return nil, fmt.Errorf("a length of %d", n)
	}
	return r.read(n)
}

func (r *backwards) read(n int64) ([]byte, error) {
	if r.end -= n; r.end < 0 {
		return nil, io.ErrUnexpectedEOF
	}
	b := make([]byte, n)
	_, err := r.f.ReadAt(b, r.end)
	return b, err
}

// foreign returns ErrInvalid if the directory holds files but no store.
func foreign(dir string) error {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("open store: %w", err)
	}
	other, parts := "", false
	for _, e := range entries {
		switch name := e.Name(); name {
		case "MANIFEST":
			return nil
		case "LOCK", "KEYREGISTRY", "REWRITE-KEYREGISTRY", "MANIFEST-REWRITE", "DISCARD", "lost+found":
			// of a store that was never finished, or of a volume of its own
		default:
			switch filepath.Ext(name) {
			case ".mem", ".vlog", ".sst":
				parts = true
			default:
				other = name
			}
		}
	}
	switch {
	case parts:
		return fault(ErrCorrupt, "the store in %q has lost its MANIFEST: restore a backup into a new directory", dir)
	case other != "":
		return fault(ErrInvalid, "%q holds other files (%q) and no store: give a directory of its own", dir, other)
	}
	return nil
}
