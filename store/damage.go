package store

import "fmt"

// verifyUpTo is the size of tables, in bytes, up to which Open checks their
// checksums before it returns; beyond it that goes on beside the first calls.
var verifyUpTo int64 = 64 << 20 // changed by a test

// verify checks the checksums of all tables. Badger does not do so when it
// reads, and goes around what it cannot read: recipes would seem never to have
// been there. Of a large store it is done in the background; a fault found
// there is returned by every later call.
func (b *Badger) verify() error {
	if b.dir == "" {
		return nil
	}
	size := int64(0)
	for _, t := range b.db.Tables() {
		size += int64(t.OnDiskSize)
	}
	if size <= verifyUpTo {
		return b.checksums()
	}
	b.tidy.Go(func() {
		if err := b.checksums(); err != nil {
			b.damaged(err)
		}
	})
	return nil
}

// damaged has every later call return err.
func (b *Badger) damaged(err error) {
	b.opt.Logger.Error("store", "text", Message(err))
	b.mu.Lock()
	defer b.mu.Unlock()
	b.damage = err
}

// caught turns a panic into ErrCorrupt if files are damaged: badger meets some
// damage so. It is deferred.
func (b *Badger) caught(err *error) {
	p := recover()
	if p == nil {
		return
	}
	if b.dir != "" {
		if *err = b.checksums(); *err != nil {
			b.damaged(*err)
			return
		}
	}
	panic(p)
}

func (b *Badger) checksums() (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = corrupt(b.dir, fmt.Errorf("%v", p))
		}
	}()
	if err := b.db.VerifyChecksum(); err != nil {
		return corrupt(b.dir, err)
	}
	return nil
}
