//go:build unix

package store

import (
	"os"
	"syscall"
)

// freeSpace returns the bytes that may still be written to the disk of dir.
func freeSpace(dir string) (int64, error) {
	var s syscall.Statfs_t
	if err := syscall.Statfs(dir, &s); err != nil {
		return 0, err
	}
	return int64(s.Bavail) * int64(s.Bsize), nil
}

// lockDir takes the lock that badger takes on a directory. The caller closes it.
func lockDir(dir string) (*os.File, error) {
	f, err := os.Open(dir)
	if err != nil {
		return nil, err
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		_ = f.Close()
		return nil, fault(ErrLocked, "the store in %q is in use by another process", dir)
	}
	return f, nil
}
