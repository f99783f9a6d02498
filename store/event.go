package store

import (
	"context"
	"encoding/binary"
	"time"
)

// SeeEvent records that an event arrived.
func (w *workspaceBadger) SeeEvent(ctx context.Context, id string) (EventState, error) {
	if err := validID256("an event", id); err != nil {
		return 0, err
	}
	var state EventState
	err := w.update(ctx, func(t *tx) (err error) {
		key := w.area.key(kindEvent, id)
		if state, err = t.event(key); err != nil || state != EventNew {
			return err
		}
		return t.Set(key, eventValue(t.now, false))
	})
	return state, err
}

// FinishEvent records that an event was dealt with.
func (w *workspaceBadger) FinishEvent(ctx context.Context, id string) error {
	if err := validID256("an event", id); err != nil {
		return err
	}
	return w.update(ctx, func(t *tx) error {
		key := w.area.key(kindEvent, id)
		switch state, err := t.event(key); {
		case err != nil:
			return err
		case state == EventNew:
			return fault(ErrNotFound, "the event was not seen")
		}
		return t.Set(key, eventValue(t.now, true))
	})
}

func (t *tx) event(key []byte) (EventState, error) {
	value, ok, err := t.get(key)
	switch {
	case err != nil || !ok || eventOver(t.now, value):
		return EventNew, err
	case value[8] == 1:
		return EventDone, nil
	}
	return EventSeen, nil
}

// eventOver reports whether an event is old enough to be dropped.
func eventOver(now time.Time, value []byte) bool {
	return len(value) < 9 || now.Sub(seconds(value)) >= KeepEvent
}

func eventValue(now time.Time, done bool) []byte {
	v := binary.BigEndian.AppendUint64(nil, uint64(now.Unix()))
	if done {
		return append(v, 1)
	}
	return append(v, 0)
}
