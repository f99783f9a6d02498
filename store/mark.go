package store

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/binary"
	"time"
)

// markStart is where the conversation's id begins in a mark's value, after the
// time and its length.
const markStart = 10

// SetMark keeps a mark.
func (w *workspaceBadger) SetMark(ctx context.Context, m Mark) error {
	if err := orElse(validID256("a conversation", m.Conversation), validMark(m.Name)); err != nil {
		return err
	}
	if len(m.Value) > MaxMark {
		return fault(ErrTooLarge, "the value of a mark has %d bytes, at most %d are kept", len(m.Value), MaxMark)
	}
	talk, name := talkOf(m.Conversation), nameOf(m.Name)
	marking := &w.b.marking[int(name[0])%len(w.b.marking)]
	marking.Lock()
	defer marking.Unlock()
	return w.update(ctx, func(t *tx) error {
		index := w.area.key(kindMarkName, name)
		old, ok, err := t.get(index)
		if err != nil {
			return err
		}
		if ok && !bytes.Equal(old, talk) {
			before := w.area.key(kindMark, old, name)
			_, there, err := t.get(before) // it is not, if its conversation was forgotten
			if err != nil {
				return err
			}
			if there {
				if err := t.Set(before, nil); err != nil { // see key.go
					return err
				}
			}
		}
		value := binary.BigEndian.AppendUint64(nil, uint64(t.now.Unix()))
		value = binary.BigEndian.AppendUint16(value, uint16(len(m.Conversation)))
		value = append(append(value, m.Conversation...), m.Value...)
		if err := t.Set(w.area.key(kindMark, talk, name), value); err != nil {
			return err
		}
		return t.Set(index, talk)
	})
}

// Mark returns the mark of a name.
func (w *workspaceBadger) Mark(ctx context.Context, name string) (Mark, error) {
	if err := validMark(name); err != nil {
		return Mark{}, err
	}
	m := Mark{Name: name}
	err := w.view(ctx, func(t *tx) error {
		none := fault(ErrNotFound, "no such mark")
		hash := nameOf(name)
		talk, ok, err := t.get(w.area.key(kindMarkName, hash))
		if err != nil || !ok {
			return orElse(err, none)
		}
		value, ok, err := t.get(w.area.key(kindMark, talk, hash))
		if err != nil || !ok || markOver(t.now, value) {
			return orElse(err, none)
		}
		if m.Conversation, m.Value, ok = readMark(value); !ok {
			return fault(ErrCorrupt, "a mark in the store is damaged")
		}
		return nil
	})
	if err != nil {
		return Mark{}, err
	}
	return m, nil
}

func validMark(name string) error {
	if name == "" || len(name) > MaxID {
		return fault(ErrInvalid, "the name of a mark has 1 to %d bytes, not %d", MaxID, len(name))
	}
	return nil
}

// nameOf stands for the name of a mark, which may hold what must not be left behind.
func nameOf(name string) []byte {
	sum := sha256.Sum256([]byte(name))
	return sum[:markNameLen]
}

// markNameLen is the length of what stands for a mark's name.
const markNameLen = 16

// readMark takes the value of a mark apart.
func readMark(value []byte) (conversation, text string, ok bool) {
	if len(value) < markStart {
		return "", "", false
	}
	end := markStart + int(binary.BigEndian.Uint16(value[8:]))
	if len(value) < end {
		return "", "", false
	}
	return string(value[markStart:end]), string(value[end:]), true
}

// markOver reports whether a mark is empty, because another took its place, or
// old enough to be dropped.
func markOver(now time.Time, value []byte) bool {
	return len(value) == 0 || now.Sub(seconds(value)) >= KeepMark
}

// marksOver returns prefixes of marks that are to be dropped, all at once if
// none of the workspace is to be kept, and index keys that lead to no mark any
// more: these hold nothing and may be deleted.
func (t *tx) marksOver(a area) (prefixes, index [][]byte, err error) {
	kept := false
	err = t.each(a.key(kindMark), false, func(key, value []byte) (bool, error) {
		if !markOver(t.now, value) {
			kept = true
		} else if len(prefixes) < maxTidy {
			prefixes = append(prefixes, bytes.Clone(key))
		}
		return true, nil
	})
	if err != nil {
		return nil, nil, err
	}
	if !kept && len(prefixes) > 0 {
		prefixes = [][]byte{a.key(kindMark)}
	}
	names := a.key(kindMarkName)
	err = t.each(names, false, func(key, talk []byte) (bool, error) {
		_, there, err := t.get(a.key(kindMark, talk, key[len(names):]))
		if err == nil && !there {
			index = append(index, bytes.Clone(key))
		}
		return len(index) < maxTidy, err
	})
	return prefixes, index, err
}
