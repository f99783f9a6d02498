package store

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"hash"
	"io"

	"filippo.io/age"
	"github.com/dgraph-io/badger/v4"
)

// A backup is, in this order:
//
//	pottle backup 1\n
//	{"schema":N,"at":TIME}\n
//	for each key: its length, the key, the value's length, the value
//	a length of 0, the number of keys, SHA-256 of everything before it
//
// Lengths and numbers are unsigned varints. With a key all of it is encrypted
// by age (age -d -i KEYFILE opens it).
const backupMagic = "pottle backup 1\n"

const ageMagic = "age-encryption.org/"

// Progress is called now and then with the number of records dealt with.
type Progress func(records int64)

func (p Progress) at(n int64) {
	if p != nil && n%512 == 0 {
		p(n)
	}
}

func (p Progress) end(n int64) {
	if p != nil {
		p(n)
	}
}

// Backup writes the whole store as it stands now, while it stays in use, without
// the payloads of unfinished events. It is encrypted if the store is, and no
// other holds an access: see Restore. The caller syncs and closes the file.
func (b *Badger) Backup(ctx context.Context, w io.Writer, progress Progress) error {
	out := io.WriteCloser(closer{w})
	if b.opt.Key != nil {
		var err error
		if out, err = age.Encrypt(w, b.opt.Key.identity.Recipient()); err != nil {
			return fmt.Errorf("back up: %w", err)
		}
	}
	sum := sha256.New()
	buf := bufio.NewWriterSize(io.MultiWriter(out, sum), 64<<10)
	var theirs error // of the writer: the caller's affair, not the store's
	err := b.view(ctx, func(t *tx) error {
		theirs = t.backup(ctx, buf, sum, out, progress)
		return nil
	})
	if err := orElse(err, theirs); err != nil {
		return fmt.Errorf("back up: %w", err)
	}
	if err := out.Close(); err != nil {
		return fmt.Errorf("back up: %w", err)
	}
	return nil
}

type closer struct{ io.Writer }

func (closer) Close() error { return nil }

func (t *tx) backup(ctx context.Context, buf *bufio.Writer, sum hash.Hash, out io.Writer, progress Progress) error {
	var s schema
	if _, err := t.read(keySchema, &s); err != nil {
		return err
	}
	head, err := json.Marshal(schema{Schema: s.Schema, At: t.now})
	if err != nil {
		return err
	}
	fmt.Fprintf(buf, "%s%s\n", backupMagic, head) // buf keeps the error for Flush
	n := int64(0)
	err = t.each([]byte{spaceWorkspace}, false, func(key, value []byte) (bool, error) {
		if kindOf(key) == kindPayload {
			return true, ctx.Err() // a backup lives longer than a payload may
		}
		writeChunk(buf, key)
		if _, err := writeChunk(buf, value); err != nil {
			return false, err
		}
		n++
		progress.at(n)
		return true, ctx.Err()
	})
	if err != nil {
		return err
	}
	buf.Write(binary.AppendUvarint([]byte{0}, uint64(n)))
	if err := buf.Flush(); err != nil {
		return err
	}
	progress.end(n)
	_, err = out.Write(sum.Sum(nil))
	return err
}

func writeChunk(w *bufio.Writer, b []byte) (int, error) {
	w.Write(binary.AppendUvarint(nil, uint64(len(b))))
	return w.Write(b)
}

// Restore fills an empty store from a backup. key opens an encrypted backup;
// nil means the store's own key. If it fails the store is empty as before; if
// the process ends meanwhile, Open says so. An access to a workspace stays
// sealed with the key of the store that it comes from; a store without a key,
// whose backups are in plain text, leaves it out. Returns ErrExists if the store is
// not empty, ErrKey, ErrNewerStore, or ErrCorrupt for a backup that is cut off
// or altered.
func (b *Badger) Restore(ctx context.Context, r io.Reader, key *Key, progress Progress) error {
	names, err := b.Workspaces(ctx)
	if err != nil {
		return err
	}
	if len(names) > 0 {
		return fault(ErrExists, "the store is not empty: restore into a new directory")
	}
	if key == nil {
		key = b.opt.Key
	}
	plain, err := opened(r, key)
	if err != nil {
		return err
	}
	if err := b.enter(ctx); err != nil {
		return err
	}
	defer b.leave()
	b.writes.Lock()
	defer b.writes.Unlock()
	if err := orElse(b.room(), b.finishRemovals()); err != nil {
		return err
	}
	var before schema
	err = b.commit(func(t *tx) error {
		if _, err := t.read(keySchema, &before); err != nil {
			return err
		}
		return t.Delete(keySchema)
	})
	if err != nil {
		return err
	}
	after, err := b.load(ctx, plain, progress)
	if err == nil {
		err = b.commit(func(t *tx) error { return t.write(keySchema, after) })
	}
	if err == nil {
		return b.migrate(b.steps)
	}
	// As before.
	undo := b.drop([][]byte{{spaceWorkspace}})
	if undo == nil {
		undo = b.commit(func(t *tx) error { return t.write(keySchema, before) })
	}
	return errors.Join(err, undo)
}

// opened decrypts a backup if it is encrypted.
func opened(r io.Reader, key *Key) (*bufio.Reader, error) {
	buf := bufio.NewReaderSize(r, 64<<10)
	start, _ := buf.Peek(len(ageMagic))
	if !bytes.Equal(start, []byte(ageMagic)) {
		return buf, nil
	}
	if key == nil {
		return nil, fault(ErrKey, "the backup is encrypted: its key file is needed")
	}
	plain, err := age.Decrypt(buf, key.identity)
	if _, ok := errors.AsType[*age.NoIdentityMatchError](err); ok {
		return nil, fault(ErrKey, "the key does not open the backup: it is of another store, or of a time before the key was changed")
	}
	if err != nil {
		return nil, badBackup(err)
	}
	return bufio.NewReaderSize(plain, 64<<10), nil
}

func badBackup(err error) error {
	return &Error{Code: ErrCorrupt.Code, Message: "the backup is damaged or cut off: nothing was restored", Err: err}
}

// load writes the keys of a backup and returns its schema.
func (b *Badger) load(ctx context.Context, r *bufio.Reader, progress Progress) (schema, error) {
	in := &summed{r: r, sum: sha256.New()}
	var s schema
	magic := make([]byte, len(backupMagic))
	if _, err := io.ReadFull(in, magic); err != nil || string(magic) != backupMagic {
		if err != nil && err != io.EOF && err != io.ErrUnexpectedEOF {
			return s, badBackup(err) // age's
		}
		if bytes.HasPrefix(magic, []byte("pottle backup ")) {
			return s, fault(ErrNewerStore, "the backup was written by a newer pottle: update the program")
		}
		return s, fault(ErrCorrupt, "this is no backup of a pottle store: nothing was restored")
	}
	if err := in.schema(&s); err != nil {
		return s, badBackup(err)
	}
	if s.Schema > len(b.steps) {
		return s, newer("the backup", s.Schema, len(b.steps))
	}
	batch := b.db.NewWriteBatch()
	defer batch.Cancel()
	n := int64(0)
	for ; ; n++ {
		key, err := in.chunk(1 << 16)
		if err != nil {
			return s, badBackup(err)
		}
		if len(key) == 0 {
			break
		}
		value, err := in.chunk(1 << 20)
		if err != nil {
			return s, badBackup(err)
		}
		if key[0] != spaceWorkspace {
			return s, badBackup(errors.New("a key of an unknown kind"))
		}
		if b.opt.Key == nil && kindOf(key) == kindAccess {
			continue
		}
		if err := errors.Join(batch.SetEntry(badger.NewEntry(key, value)), ctx.Err()); err != nil {
			return s, b.said(err)
		}
		progress.at(n)
		if n%4096 == 0 {
			if err := b.room(); err != nil {
				return s, err
			}
		}
	}
	count, err := binary.ReadUvarint(in)
	if err != nil || int64(count) != n {
		return s, badBackup(err)
	}
	want := in.sum.Sum(nil)
	got := make([]byte, len(want))
	if _, err := io.ReadFull(r, got); err != nil || !bytes.Equal(got, want) {
		return s, badBackup(err)
	}
	if _, err := r.ReadByte(); err != io.EOF { // age also checks its end here
		return s, badBackup(err)
	}
	if err := batch.Flush(); err != nil {
		return s, b.said(err)
	}
	progress.end(n)
	s.At = b.now()
	return s, nil
}

// summed reads and adds to the checksum what it read.
type summed struct {
	r   *bufio.Reader
	sum hash.Hash
}

func (s *summed) Read(p []byte) (int, error) {
	n, err := s.r.Read(p)
	s.sum.Write(p[:n])
	return n, err
}

func (s *summed) ReadByte() (byte, error) {
	c, err := s.r.ReadByte()
	if err == nil {
		s.sum.Write([]byte{c})
	}
	return c, err
}

// schema reads the line about the store.
func (s *summed) schema(v *schema) error {
	line, err := s.r.ReadSlice('\n')
	if err != nil {
		return err
	}
	s.sum.Write(line)
	return json.Unmarshal(line, v)
}

// chunk reads a length of at most max and as many bytes.
func (s *summed) chunk(max uint64) ([]byte, error) {
	n, err := binary.ReadUvarint(s)
	if err != nil {
		return nil, err
	}
	if n > max {
		return nil, fmt.Errorf("a length of %d", n)
	}
	b := make([]byte, n)
	_, err = io.ReadFull(s, b)
	return b, err
}
