package store

import (
	"errors"
	"fmt"
	"os"

	"filippo.io/age"
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
func (k *Key) disk() []byte { return k.derive("pottle store, files, 1") }
