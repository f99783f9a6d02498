package store_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"pottle/store"
)

// Set in a child that changes the key of a store to and fro until it is killed.
const (
	rotateDir  = "POTTLE_ROTATE_DIR"
	rotateKeys = "POTTLE_ROTATE_KEYS" // a directory with the key files 0 and 1
)

func readKeys(dir string) (keys [2]*store.Key, err error) {
	for i := range keys {
		if keys[i], err = store.ReadKey(filepath.Join(dir, fmt.Sprint(i))); err != nil {
			return keys, err
		}
	}
	return keys, nil
}

func rotateChild(dir string) {
	keys, err := readKeys(os.Getenv(rotateKeys))
	for err == nil {
		err = store.RotateKey(dir, keys[0], keys[1])
		if err == nil || errors.Is(err, store.ErrKey) {
			err = store.RotateKey(dir, keys[1], keys[0])
		}
	}
	fmt.Fprintln(os.Stderr, "fault:", err)
	os.Exit(3)
}

// TestRotateKilled kills a process that changes the key, at random moments:
// exactly one of the two keys opens the store, and that one the tokens.
func TestRotateKilled(t *testing.T) {
	kills := 30
	if testing.Short() {
		kills = 15
	}
	dir, files := t.TempDir(), t.TempDir()
	for i := range 2 {
		ok(t, newKey(t).WriteFile(filepath.Join(files, fmt.Sprint(i))))
	}
	keys, err := readKeys(files)
	ok(t, err)
	b := mustOpen(t, dir, store.Options{Key: keys[0], Housekeeping: -1})
	for i := range 3 {
		grant(t, b, fmt.Sprint("T", i), fmt.Sprint("xoxb-", i))
	}
	ok(t, b.Close())
	var opened [2]int
	for range kills {
		child := exec.Command(os.Args[0])
		child.Env = append(os.Environ(), rotateDir+"="+dir, rotateKeys+"="+files)
		child.Stderr = os.Stderr
		ok(t, child.Start())
		time.Sleep(time.Duration(20+rand.IntN(120)) * time.Millisecond)
		_ = child.Process.Kill()
		_ = child.Wait()
		if code := child.ProcessState.ExitCode(); code == 3 {
			t.Fatal("the child met a fault")
		}
		fits := 0
		for i, key := range keys {
			b, err := store.Open(dir, store.Options{Key: key, Housekeeping: -1})
			if errors.Is(err, store.ErrKey) {
				continue
			}
			ok(t, err)
			fits++
			opened[i]++
			for i := range 3 {
				if got := token(t, b, fmt.Sprint("T", i)); got != fmt.Sprint("xoxb-", i) {
					t.Errorf("token of T%d: %q", i, got)
				}
			}
			clean(t, b)
			ok(t, b.Close())
		}
		if fits != 1 {
			t.Fatalf("%d keys open the store", fits)
		}
	}
	t.Logf("%d kills; the first key fitted %d times, the second %d times", kills, opened[0], opened[1])
	if opened[0] == 0 || opened[1] == 0 {
		t.Error("the key was never changed: the test shows little")
	}
}
