package store

import (
	"crypto/hkdf"
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"filippo.io/age"
	"github.com/dgraph-io/badger/v4"
)

// Key encrypts a store and its backups. It is an age key (X25519): backups can
// be opened with age itself, and the store's AES-256 key is derived from it.
type Key struct{ identity *age.X25519Identity }

// NewKey makes a key by chance.
func NewKey() (*Key, error) {
	id, err := age.GenerateX25519Identity()
	if err != nil {
		return nil, fmt.Errorf("new key: %w", err)
	}
	return &Key{id}, nil
}

// ReadKey reads a key file: one line AGE-SECRET-KEY-1..., empty lines and lines
// that begin with # left aside. Returns ErrKey if there is no such line.
func ReadKey(path string) (*Key, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("read key: %w", err)
	}
	defer f.Close()
	// age's own error may quote the line, which is a secret.
	ids, err := age.ParseIdentities(f)
	if err != nil || len(ids) != 1 {
		return nil, fault(ErrKey, "%q holds no key: one line AGE-SECRET-KEY-1... is needed", path)
	}
	id, ok := ids[0].(*age.X25519Identity)
	if !ok {
		return nil, fault(ErrKey, "%q holds no key of the kind AGE-SECRET-KEY-1...", path)
	}
	return &Key{id}, nil
}

// WriteFile writes the key to a new file that only its owner may read.
func (k *Key) WriteFile(path string) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return fmt.Errorf("write key: %w", err)
	}
	_, err = fmt.Fprintf(f, "# key of a pottle store and its backups: keep a copy elsewhere; without it they are lost\n%s\n", k.identity)
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return fmt.Errorf("write key: %w", err)
	}
	return nil
}

// disk is the AES-256 key of the files.
func (k *Key) disk() []byte {
	b, err := hkdf.Key(sha256.New, []byte(k.identity.String()), nil, "pottle store, files, 1", 32)
	if err != nil {
		panic("store: " + err.Error()) // only for absurd lengths
	}
	return b
}

// RotateKey gives an encrypted store that is not open a new key. Afterwards
// only the new one opens it; backups made before need the old one. The files
// stay as they are: what changes is the key that guards their keys, which
// badger renews by itself every ten days. Returns ErrKey if old does not fit
// and ErrLocked if the store is open. If it is interrupted, one of the two keys fits.
func RotateKey(dir string, old, new *Key) error {
	lock, err := lockDir(dir)
	if err != nil {
		return err
	}
	defer lock.Close()
	if _, err := os.Stat(filepath.Join(dir, badger.KeyRegistryFileName)); err != nil {
		return fmt.Errorf("rotate key: %w", err)
	}
	o := badger.KeyRegistryOptions{Dir: dir, ReadOnly: true, EncryptionKey: old.disk()}
	reg, err := badger.OpenKeyRegistry(o)
	if errors.Is(err, badger.ErrEncryptionKeyMismatch) {
		return fault(ErrKey, "the old key does not open the store in %q", dir)
	}
	if err != nil {
		return corrupt(dir, err)
	}
	o.EncryptionKey = new.disk()
	if err := badger.WriteKeyRegistry(reg, o); err != nil {
		return fmt.Errorf("rotate key: %w", err)
	}
	return nil
}
