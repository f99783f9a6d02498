package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"os"
	"path/filepath"

	"github.com/dgraph-io/badger/v4/y"
)

// Badger's logs of the last writes (*.mem) as of its version 4.9: 20 bytes, then
// entries of META USERMETA KEYLEN VALUELEN EXPIRY KEY VALUE CRC4, the three
// numbers as unsigned varints, the checksum (Castagnoli) over all before it, as
// it stands in the file. The last entry of a transaction has finTxn in META.
// What was never written is zero.
const (
	walStart = 20
	finTxn   = 1 << 7
)

// checkLogs returns ErrCorrupt if a log is damaged before its end. Badger takes
// any damage for the end of the log, so that acknowledged writes behind it would
// be lost without a word.
//
// An entry that cannot be read may also be one that was being written when the
// process or the power ended; it was not acknowledged then. Two signs tell them
// apart: behind an entry that was interrupted no transaction ends, or the power
// kept blocks of it from the disk and left them zero.
func checkLogs(dir string) error {
	logs, err := filepath.Glob(filepath.Join(dir, "*.mem"))
	if err != nil {
		return err
	}
	for _, name := range logs {
		data, err := os.ReadFile(name)
		if err != nil {
			return fmt.Errorf("open store: %w", err)
		}
		if at, damaged := damagedLog(data); damaged {
			return &Error{
				Code: ErrCorrupt.Code,
				Message: fmt.Sprintf("the log of the last writes in %q is damaged, and writes behind the damage would be lost: "+
					"restore a backup into a new directory, or open it with what stands before the damage", dir),
				Err: fmt.Errorf("%s at byte %d of %d", filepath.Base(name), at, len(bytes.TrimRight(data, "\x00"))),
			}
		}
	}
	return nil
}

// damagedLog returns where a log is damaged, if it is.
func damagedLog(data []byte) (at int, damaged bool) {
	at = walStart
	for at < len(data) {
		e, err := readEntry(data[at:])
		if err != nil {
			break
		}
		if e.keyLen == 0 {
			return at, false // the end
		}
		at += e.size
	}
	if at >= len(data) || zeroBlock(data, at) {
		return at, false
	}
	for i := at + 1; i < len(data); i++ {
		if data[i]&finTxn == 0 {
			continue
		}
		if e, err := readEntry(data[i:]); err == nil && e.keyLen > 0 && e.meta&finTxn != 0 {
			return at, true
		}
	}
	return at, false
}

// walEntry is what is needed of an entry.
type walEntry struct {
	meta   byte
	keyLen uint64
	size   int
}

var errEntry = errors.New("no entry")

func readEntry(b []byte) (walEntry, error) {
	if len(b) < 5 {
		return walEntry{}, errEntry
	}
	e := walEntry{meta: b[0]}
	at := 2
	var numbers [3]uint64
	for i := range numbers {
		n, size := binary.Uvarint(b[at:])
		if size <= 0 {
			return walEntry{}, errEntry
		}
		numbers[i], at = n, at+size
	}
	if e.keyLen = numbers[0]; e.keyLen == 0 {
		return e, nil
	}
	if numbers[0] > 1<<16 || numbers[1] > uint64(len(b)) {
		return walEntry{}, errEntry
	}
	at += int(numbers[0] + numbers[1])
	if at+crc32.Size > len(b) || crc32.Checksum(b[:at], y.CastagnoliCrcTable) != binary.BigEndian.Uint32(b[at:]) {
		return walEntry{}, errEntry
	}
	e.size = at + crc32.Size
	return e, nil
}

// zeroBlock reports whether a block of the disk (512 bytes) is zero between the
// one that holds byte at and the last that is not zero.
func zeroBlock(data []byte, at int) bool {
	const block = 512
	end := len(bytes.TrimRight(data, "\x00"))
	for i := at / block * block; i+block <= end; i += block {
		from := max(i, at)
		if len(bytes.TrimRight(data[from:i+block], "\x00")) == 0 && i+block-from > 64 {
			return true
		}
	}
	return false
}
