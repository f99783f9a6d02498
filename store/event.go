package store

import (
	"bytes"
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/binary"
	"slices"
	"time"
)

// SeeEvent records that an event arrived.
func (w *workspaceBadger) SeeEvent(ctx context.Context, id string) (EventState, error) {
	return w.seeEvent(ctx, id, nil, nil)
}

// KeepEvent records that an event arrived, with what it takes to work it.
func (w *workspaceBadger) KeepEvent(ctx context.Context, e Event) (EventState, error) {
	if err := validID256("a conversation", e.Conversation); err != nil {
		return 0, err
	}
	switch n := len(e.Payload); {
	case n == 0:
		return 0, fault(ErrInvalid, "the payload of an event is empty")
	case n > MaxPayload:
		return 0, fault(ErrTooLarge, "the payload of an event has %d bytes, at most %d are kept", n, MaxPayload)
	}
	return w.seeEvent(ctx, e.ID, talkOf(e.Conversation), e.Payload)
}

func (w *workspaceBadger) seeEvent(ctx context.Context, id string, talk, payload []byte) (EventState, error) {
	if err := validID256("an event", id); err != nil {
		return 0, err
	}
	number := w.b.arrived.Add(1)
	var state EventState
	err := w.update(ctx, func(t *tx) error {
		key := w.area.key(kindEvent, id)
		old, ok, err := t.get(key)
		if err != nil {
			return err
		}
		if state = EventNew; ok {
			state = eventState(t.now, old)
		}
		if state == EventDone || state == EventSeen && talk == nil {
			return nil
		}
		at, since := uint64(t.now.UnixNano()), t.now
		if state == EventSeen {
			since = seconds(old)
		}
		if talk != nil {
			if ok && len(old) == eventLen+talkLen {
				// What it held before goes, wherever it was; its place in the order stays.
				before := w.area.payload(old[eventLen:], id)
				was, there, err := t.get(before)
				if err != nil {
					return err
				}
				if state == EventSeen && !there {
					return nil // its conversation was forgotten
				}
				if state == EventSeen && len(was) > payloadStart {
					at, number = binary.BigEndian.Uint64(was), binary.BigEndian.Uint64(was[8:])
				}
				if there {
					if err := t.Set(before, nil); err != nil {
						return err
					}
				}
			}
			value := binary.BigEndian.AppendUint64(binary.BigEndian.AppendUint64(nil, at), number)
			if err := t.Set(w.area.payload(talk, id), append(value, payload...)); err != nil {
				return err
			}
		}
		return t.Set(key, append(eventValue(since, false), talk...))
	})
	return state, err
}

// UnfinishedEvents lists the events that are to be worked still.
func (w *workspaceBadger) UnfinishedEvents(ctx context.Context) ([]UnfinishedEvent, error) {
	if err := w.valid(); err != nil {
		return nil, err
	}
	type numbered struct {
		UnfinishedEvent
		number uint64
	}
	var all []numbered
	err := w.b.view(ctx, func(t *tx) error {
		prefix := w.area.key(kindPayload)
		return t.each(prefix, false, func(key, value []byte) (bool, error) {
			if payloadOver(t.now, value) || len(key) <= len(prefix)+talkLen+2 {
				return true, ctx.Err()
			}
			all = append(all, numbered{UnfinishedEvent{
				ID: string(key[len(prefix)+talkLen+2:]), Payload: bytes.Clone(value[payloadStart:]), When: nanoseconds(value),
			}, binary.BigEndian.Uint64(value[8:])})
			return true, ctx.Err()
		})
	})
	slices.SortFunc(all, func(a, b numbered) int {
		return cmp.Or(a.When.Compare(b.When), cmp.Compare(a.number, b.number))
	})
	events := make([]UnfinishedEvent, len(all))
	for i, e := range all {
		events[i] = e.UnfinishedEvent
	}
	return events, err
}

// FinishEvent records that an event was dealt with.
func (w *workspaceBadger) FinishEvent(ctx context.Context, id string) error {
	if err := validID256("an event", id); err != nil {
		return err
	}
	return w.update(ctx, func(t *tx) error {
		key := w.area.key(kindEvent, id)
		old, ok, err := t.get(key)
		switch {
		case err != nil:
			return err
		case !ok || eventState(t.now, old) == EventNew:
			return fault(ErrNotFound, "the event was not seen")
		}
		if len(old) == eventLen+talkLen {
			payload := w.area.payload(old[eventLen:], id)
			_, there, err := t.get(payload) // it is not, if its conversation was forgotten
			if err != nil {
				return err
			}
			if there {
				if err := t.Set(payload, nil); err != nil { // see key.go
					return err
				}
			}
		}
		return t.Set(key, eventValue(t.now, true))
	})
}

const (
	eventLen     = 9  // of an event's value without a conversation
	talkLen      = 16 // of what stands for a conversation
	payloadStart = 16 // of the payload in its value
)

// payload is the key of a payload; the id's length stands before it, so that no
// key begins another.
func (a area) payload(talk []byte, id string) []byte {
	return a.key(kindPayload, talk, byte(len(id)>>8), byte(len(id)), id)
}

// talkOf stands for a conversation where its id must not be left behind.
func talkOf(conversation string) []byte {
	sum := sha256.Sum256([]byte(conversation))
	return sum[:talkLen]
}

func eventState(now time.Time, value []byte) EventState {
	switch {
	case eventOver(now, value):
		return EventNew
	case value[8] == 1:
		return EventDone
	}
	return EventSeen
}

// eventOver reports whether an event is old enough to be dropped.
func eventOver(now time.Time, value []byte) bool {
	return len(value) < eventLen || now.Sub(seconds(value)) >= KeepEvent
}

// payloadOver reports whether a payload is empty, because its event was dealt
// with, or old enough to be dropped.
func payloadOver(now time.Time, value []byte) bool {
	return len(value) <= payloadStart || now.Sub(nanoseconds(value)) >= KeepEvent
}

// payloadsOver returns prefixes of payloads that are to be dropped: all at once
// if none of the workspace is to be kept.
func (t *tx) payloadsOver(a area) (prefixes [][]byte, err error) {
	kept := false
	err = t.each(a.key(kindPayload), false, func(key, value []byte) (bool, error) {
		if !payloadOver(t.now, value) {
			kept = true
		} else if len(prefixes) < maxTidy {
			prefixes = append(prefixes, bytes.Clone(key))
		}
		return true, nil
	})
	if !kept && len(prefixes) > 0 {
		prefixes = [][]byte{a.key(kindPayload)}
	}
	return prefixes, err
}

func nanoseconds(value []byte) time.Time {
	return time.Unix(0, int64(binary.BigEndian.Uint64(value)))
}

func eventValue(now time.Time, done bool) []byte {
	v := binary.BigEndian.AppendUint64(nil, uint64(now.Unix()))
	if done {
		return append(v, 1)
	}
	return append(v, 0)
}
