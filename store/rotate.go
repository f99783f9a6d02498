package store

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/dgraph-io/badger/v4"
)

// RotateKey gives an encrypted store that is not open a new key. Afterwards
// only the new one opens it; backups made before need the old one. The files
// stay as they are: what changes is the key that guards their keys, which
// badger renews by itself every ten days, and the seals of tokens. Returns
// ErrKey if old does not fit, ErrLocked if the store is open, and what Open
// returns of a store that it does not open. If it is interrupted, one of the
// two keys fits, the store and its tokens.
func RotateKey(dir string, old, new *Key) error {
	lock, err := lockDir(dir)
	if err != nil {
		return err
	}
	defer lock.Close()
	if _, err := os.Stat(filepath.Join(dir, badger.KeyRegistryFileName)); err != nil {
		return fmt.Errorf("rotate key: %w", err)
	}
	if _, err := registry(dir, old); err != nil {
		return err
	}
	// Sealed with both keys, the tokens can be opened before and after what
	// decides which key opens the store.
	tokens, err := resealIn(dir, old, old, new)
	if err != nil {
		return fmt.Errorf("rotate key: %w", err)
	}
	if err := rewriteRegistry(dir, old, new); err != nil {
		return err
	}
	if tokens == 0 {
		return nil
	}
	if _, err := resealIn(dir, new, new); err != nil {
		return fmt.Errorf("rotate key: the new key opens the store now, but tokens are sealed with the old one still: %w", err)
	}
	return nil
}

// resealIn opens a store with a key and has its tokens sealed with others; it
// returns their number. The caller holds the lock of the directory.
func resealIn(dir string, key *Key, with ...*Key) (tokens int, err error) {
	b, err := open(dir, Options{Key: key, Housekeeping: -1, locked: true}.withDefaults(), migrations)
	if err != nil {
		return 0, err
	}
	tokens, err = b.reseal(with...)
	return tokens, errors.Join(err, b.Close())
}

// rewriteRegistry changes the key that guards the keys of the files.
func rewriteRegistry(dir string, old, new *Key) error {
	reg, err := registry(dir, old)
	if err != nil {
		return err
	}
	o := badger.KeyRegistryOptions{Dir: dir, ReadOnly: true, EncryptionKey: new.disk()}
	if err := badger.WriteKeyRegistry(reg, o); err != nil {
		return fmt.Errorf("rotate key: %w", err)
	}
	return nil
}

// registry reads the keys of the files.
func registry(dir string, key *Key) (*badger.KeyRegistry, error) {
	o := badger.KeyRegistryOptions{Dir: dir, ReadOnly: true, EncryptionKey: key.disk()}
	reg, err := badger.OpenKeyRegistry(o)
	if errors.Is(err, badger.ErrEncryptionKeyMismatch) {
		return nil, fault(ErrKey, "the old key does not open the store in %q", dir)
	}
	if err != nil {
		return nil, corrupt(dir, err)
	}
	return reg, nil
}
