package store

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"hash/maphash"
)

// Report is what Check found.
type Report struct {
	Schema        int
	Workspaces    int
	Conversations int
	Recipes       int // not deleted
	Deleted       int
	Versions      int
	Foods         int
	Words         int
	Targets       int
	Changes       int
	Marks         int
	Accesses      int // not withdrawn
	Left          int // workspaces that left
	Keys          int64

	// Faults names what does not fit together, by ids, without any text of
	// recipes. Empty if all is well.
	Faults []string
}

// maxFaults is where Check stops to list faults.
const maxFaults = 100

func (r *Report) fault(format string, args ...any) {
	if len(r.Faults) < maxFaults {
		r.Faults = append(r.Faults, fmt.Sprintf(format, args...))
	}
}

// Check reads the whole store: the checksums of its files, every record, and
// whether recipes, versions and indexes agree. The error is nil if it could be
// read to the end; what is wrong stands in Report.Faults. Damaged files give
// ErrCorrupt.
func (b *Badger) Check(ctx context.Context, progress Progress) (Report, error) {
	c := checker{seed: maphash.MakeSeed()}
	err := b.view(ctx, func(t *tx) error {
		if b.dir != "" {
			if err := b.checksums(); err != nil {
				return err
			}
		}
		var s schema
		if _, err := t.read(keySchema, &s); err != nil {
			return err
		}
		c.Schema = s.Schema
		if err := c.pass(ctx, t, progress); err != nil || c.index == 0 {
			return err
		}
		// The index keys are not those that the recipes ought to have: once
		// more, to say which.
		again := checker{seed: c.seed, closely: true}
		err := again.pass(ctx, t, progress)
		c.Faults = again.Faults
		return err
	})
	progress.end(c.Keys)
	return c.Report, err
}

// checker makes a Report.
type checker struct {
	Report
	seed maphash.Seed

	// index is the sum of the hashes of the index keys that recipes ought to
	// have less that of those that are there: 0 if they agree.
	index uint64

	closely bool // look up each index key
}

func (c *checker) hash(key, value []byte) uint64 {
	var h maphash.Hash
	h.SetSeed(c.seed)
	_, _ = h.Write(key)
	_ = h.WriteByte(byte(len(value)))
	_, _ = h.Write(value)
	return h.Sum64()
}

// pass goes through all keys once.
func (c *checker) pass(ctx context.Context, t *tx, progress Progress) error {
	last := ""
	return t.each([]byte{spaceWorkspace}, false, func(key, value []byte) (bool, error) {
		name, ok := workspaceOf(key)
		if !ok || len(key) <= 2+len(name) {
			c.fault("a key of %d bytes is cut off", len(key))
			return true, nil
		}
		if c.Workspaces == 0 || name != last {
			c.Workspaces++
			last = name
		}
		c.Keys++
		progress.at(c.Keys)
		a := areaOf(name)
		return true, orElse(c.key(t, a, key, value), ctx.Err())
	})
}

// key looks at one key of a workspace.
func (c *checker) key(t *tx, a area, key, value []byte) error {
	kind, rest := key[len(a)], key[len(a)+1:] // what follows the kind
	switch kind {
	case kindState:
		c.Conversations++
		if len(value) < 8 || !json.Valid(value[8:]) {
			c.fault("the state of a conversation is damaged")
		}
		return c.partner(t, a.key(kindExpiry, rest), "a conversation without expiry")
	case kindExpiry:
		return c.partner(t, a.key(kindState, rest), "an expiry without conversation")
	case kindRecipe:
		return c.recipe(t, a, string(rest), value)
	case kindVersion:
		c.Versions++
		if len(rest) != idLen+4 || !json.Valid(value) {
			c.fault("a version of recipe %q is damaged", rest[:min(idLen, len(rest))])
			return nil
		}
		return c.partner(t, a.key(kindRecipe, rest[:idLen]), "a version without recipe")
	case kindName, kindWord, kindTag, kindFigure:
		return c.indexKey(t, a, key, value)
	case kindFood:
		c.Foods++
	case kindMeaning:
		c.Words++
	case kindTarget:
		c.Targets++
	case kindChange:
		c.Changes++
	case kindMark:
		return c.mark(t, a, rest, value)
	case kindAccess:
		c.access(value)
		return nil
	case kindLeft:
		c.Left++
		if len(rest) > 0 || len(value) != 8 {
			c.fault("the time when a workspace left is damaged")
		}
		return nil
	case kindMarkName:
		if len(rest) != markNameLen || len(value) != talkLen {
			c.fault("the name of a mark is damaged")
		}
		return nil
	case kindDeleted, kindEvent, kindPayload:
		return nil
	case kindSetting, kindHistory:
	default:
		c.fault("a key of the unknown kind %q", kind)
	}
	if len(value) > 0 && !json.Valid(value) {
		c.fault("a record of kind %q is damaged", kind)
	}
	return nil
}

// mark looks at a mark; an empty one was replaced.
func (c *checker) mark(t *tx, a area, rest, value []byte) error {
	if len(value) == 0 && len(rest) == talkLen+markNameLen {
		return nil
	}
	c.Marks++
	talk, _, ok := readMark(value)
	if !ok || len(rest) != talkLen+markNameLen || !bytes.Equal(talkOf(talk), rest[:talkLen]) {
		c.fault("a mark of a conversation is damaged")
		return nil
	}
	return c.partner(t, a.key(kindMarkName, rest[talkLen:]), "a mark without name")
}

// access looks at an access; an empty one was withdrawn. Whether the key opens
// it is no matter of damage: it may be of the store that a backup was made of.
func (c *checker) access(value []byte) {
	if len(value) == 0 {
		return
	}
	c.Accesses++
	var kept access
	if err := json.Unmarshal(value, &kept); err != nil || len(kept.Seals) == 0 {
		c.fault("the access to a workspace is damaged")
	}
}

func (c *checker) partner(t *tx, key []byte, what string) error {
	_, ok, err := t.get(key)
	if err == nil && !ok {
		c.fault("%s", what)
	}
	return err
}

// checkRecipe looks for all that belongs to a recipe.
func (c *checker) recipe(t *tx, a area, id string, value []byte) error {
	var h RecipeHead
	if err := json.Unmarshal(value, &h); err != nil || h.ID != id || h.Count < 1 {
		c.fault("recipe %q is damaged", id)
		return nil
	}
	if h.DeletedAt.IsZero() {
		c.Recipes++
	} else {
		c.Deleted++
		if err := c.partner(t, a.key(kindDeleted, h.DeletedAt, id), fmt.Sprintf("recipe %q is deleted and not listed", id)); err != nil {
			return err
		}
	}
	for i := range h.Count {
		if err := c.partner(t, a.key(kindVersion, id, uint32(i+1)), fmt.Sprintf("version %d of recipe %q is lost", i+1, id)); err != nil {
			return err
		}
	}
	for _, e := range indexKeys(a, h) {
		c.index += c.hash(e.Key, e.Value)
		if !c.closely {
			continue
		}
		got, ok, err := t.get(e.Key)
		if err != nil {
			return err
		}
		if !ok || !bytes.Equal(got, e.Value) {
			c.fault("recipe %q lacks an index key of kind %q", id, e.Key[len(a)])
		}
	}
	return nil
}

// checkIndex looks whether an index key is one of its recipe's.
func (c *checker) indexKey(t *tx, a area, key, value []byte) error {
	c.index -= c.hash(key, value)
	if !c.closely {
		return nil
	}
	end := key
	if key[len(a)] == kindName {
		end = value
	}
	r13 := lastID(end)
	id := string(r13[:])
	var h RecipeHead
	ok, err := t.read(a.key(kindRecipe, id), &h)
	if err != nil && Code(err) != ErrCorrupt.Code {
		return err
	}
	if ok && err == nil {
		for _, e := range indexKeys(a, h) {
			if bytes.Equal(e.Key, key) {
				return nil
			}
		}
	}
	c.fault("an index key of kind %q leads to recipe %q, which it does not fit", key[len(a)], id)
	return nil
}
