package store

import (
	"context"
	"encoding/binary"
	"encoding/json"
	"time"
)

// ctxAlways is for what the store does of its own accord.
var ctxAlways = context.Background()

func validID256(kind, id string) error {
	if id == "" || len(id) > MaxID {
		return fault(ErrInvalid, "the id of %s has 1 to %d bytes, not %d", kind, MaxID, len(id))
	}
	return nil
}

// Conversation returns a state. Its expiry is written only when a tenth of the
// time has gone, so that reading is rarely a write.
func (w *workspaceBadger) Conversation(ctx context.Context, id string) (Conversation, error) {
	if err := validID256("a conversation", id); err != nil {
		return Conversation{}, err
	}
	var c Conversation
	due := false
	err := w.view(ctx, func(t *tx) (err error) {
		c, err = t.conversation(w.area, id)
		due = c.Expires.Sub(t.now) < w.b.opt.Keep/10*9
		return err
	})
	if err != nil || !due {
		return c, err
	}
	err = w.update(ctx, func(t *tx) (err error) {
		if c, err = t.conversation(w.area, id); err != nil {
			return err
		}
		c.Expires = t.renew(w.b.opt.Keep)
		return t.expire(w.area, id, c.Expires)
	})
	return c, err
}

// SaveConversation keeps a state.
func (w *workspaceBadger) SaveConversation(ctx context.Context, c Conversation) (Conversation, error) {
	if err := validID256("a conversation", c.ID); err != nil {
		return Conversation{}, err
	}
	if len(c.State) > MaxConversation {
		return Conversation{}, fault(ErrTooLarge, "the conversation's state has %d bytes, at most %d are kept", len(c.State), MaxConversation)
	}
	if !json.Valid(c.State) {
		return Conversation{}, fault(ErrInvalid, "the conversation's state is not JSON")
	}
	saved := c
	saved.State = append(json.RawMessage(nil), c.State...)
	err := w.update(ctx, func(t *tx) error {
		old, err := t.conversation(w.area, c.ID)
		if err != nil && Code(err) != ErrNotFound.Code {
			return err
		}
		if old.Revision != c.Revision {
			return fault(ErrConflict, "the conversation was changed meanwhile (revision %d, not %d)", old.Revision, c.Revision)
		}
		saved.Revision = c.Revision + 1
		saved.Expires = t.renew(w.b.opt.Keep)
		value := append(binary.BigEndian.AppendUint64(nil, uint64(saved.Revision)), saved.State...)
		if err := t.Set(w.area.conversation(kindState, c.ID), value); err != nil {
			return err
		}
		return t.expire(w.area, c.ID, saved.Expires)
	})
	if err != nil {
		return Conversation{}, err
	}
	return saved, nil
}

// conversation reads one that has not expired.
func (t *tx) conversation(a area, id string) (Conversation, error) {
	none := fault(ErrNotFound, "no such conversation")
	expiry, ok, err := t.get(a.conversation(kindExpiry, id))
	if err != nil || !ok {
		return Conversation{}, orElse(err, none)
	}
	c := Conversation{ID: id, Expires: seconds(expiry)}
	if !t.now.Before(c.Expires) {
		return Conversation{}, none
	}
	value, ok, err := t.get(a.conversation(kindState, id))
	if err != nil || !ok || len(value) < 8 {
		return Conversation{}, orElse(err, none)
	}
	c.Revision = int(binary.BigEndian.Uint64(value))
	c.State = value[8:]
	return c, nil
}

// renew gives the expiry of a conversation used now.
func (t *tx) renew(keep time.Duration) time.Time {
	return t.now.Add(keep).Truncate(time.Second)
}

func (t *tx) expire(a area, id string, at time.Time) error {
	return t.Set(a.conversation(kindExpiry, id), binary.BigEndian.AppendUint64(nil, uint64(at.Unix())))
}

// seconds reads a time of SECONDS8; the zero time from anything shorter.
func seconds(b []byte) time.Time {
	if len(b) < 8 {
		return time.Time{}
	}
	return time.Unix(int64(binary.BigEndian.Uint64(b)), 0).UTC()
}

func orElse(err, other error) error {
	if err != nil {
		return err
	}
	return other
}
