package bot

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"pottle/grammar"
	"pottle/store"
)

// Memory is where a conversation keeps what must be there tomorrow: its own
// state, and what belongs to the whole team.
type Memory struct {
	Team store.Workspace
	ID   string // of the conversation
	Who  string // who speaks, as the record of changes names them
}

// state is what is kept of a conversation. It is JSON in the store; fields are
// only ever added.
type state struct {
	Versions []stateVersion `json:"versions"`
	Before   *stateVersion  `json:"before,omitempty"` // the recipe that was in hand before
	Advice   advice         `json:"advice,omitzero"`
	Saved    *savedAs       `json:"saved,omitempty"`
	Pending  *pending       `json:"pending,omitempty"`
	Which    string         `json:"which,omitempty"` // a change of which it was asked what lines it means, as said
}

type stateVersion struct {
	Recipe      *grammar.Recipe `json:"recipe"`
	Told        []string        `json:"told,omitempty"` // of the cooking
	Said        string          `json:"said"`
	CookedGrams float64         `json:"cooked_grams,omitempty"`
}

// savedAs ties a conversation to a recipe of the box.
type savedAs struct {
	ID       string `json:"id"`
	Name     string `json:"name"`
	Revision int    `json:"revision"`
	Count    int    `json:"count"` // versions of the box that stand at the front of the conversation's
}

// pending is a question that waits for a yes.
type pending struct {
	Kind grammar.RequestKind `json:"kind"`
	Name string              `json:"name"`
}

// Remember makes the conversation go on from its kept state, with the team's own
// foods, words and targets, and keep it from now on. It fails if the store cannot
// be read.
func (c *Conversation) Remember(ctx context.Context, m Memory) error {
	c.memory, c.ctx = &m, ctx
	if err := c.readTeam(); err != nil {
		return err
	}
	kept, err := m.Team.Conversation(ctx, m.ID)
	switch {
	case errors.Is(err, store.ErrNotFound):
		return nil
	case err != nil:
		return fmt.Errorf("read the conversation: %w", err)
	}
	var s state
	if err := json.Unmarshal(kept.State, &s); err != nil {
		return fmt.Errorf("read the conversation: %w", err)
	}
	c.restore(s)
	c.revision = kept.Revision
	return nil
}

// Follow goes on from the recipe of another conversation's kept state, as if it
// had been this one's; the recipe that was in hand here is the one before. It
// returns what stands for that recipe and its versions: if that is known already,
// nothing is done.
func (c *Conversation) Follow(kept []byte, known string) (string, error) {
	var s state
	if err := json.Unmarshal(kept, &s); err != nil {
		return "", fmt.Errorf("read the other conversation: %w", err)
	}
	versions, err := json.Marshal(s.Versions)
	if err != nil {
		return "", fmt.Errorf("read the other conversation: %w", err)
	}
	sum := sha256.Sum256(versions)
	stands := hex.EncodeToString(sum[:8])
	if len(s.Versions) == 0 || stands == known {
		return known, nil
	}
	before := c.inHand()
	c.restore(s)
	if before != nil {
		was := *before
		c.before = &was
	}
	c.waits, c.which = nil, ""
	return stands, nil
}

// restore takes up a kept state. Figures are worked out anew.
func (c *Conversation) restore(s state) {
	c.versions, c.advice, c.saved, c.waits, c.which = nil, s.Advice, s.Saved, s.Pending, s.Which
	for _, v := range s.Versions {
		if v.Recipe != nil {
			c.versions = append(c.versions, c.fromState(v))
		}
	}
	if s.Before != nil && s.Before.Recipe != nil {
		before := c.fromState(*s.Before)
		c.before = &before
	}
}

func (c *Conversation) fromState(v stateVersion) version {
	t := toldBy(v.Told)
	return version{v.Recipe, t, c.workAs(v.Recipe, t), v.Said, v.CookedGrams}
}

func toState(v version) stateVersion {
	return stateVersion{v.recipe, v.told.words, v.said, v.cookedGrams}
}

// readTeam takes up what belongs to the team.
func (c *Conversation) readTeam() error {
	if err := c.readOwn(); err != nil {
		return err
	}
	if err := c.readSettings(); err != nil {
		return err
	}
	targets, err := c.memory.Team.Targets().List(c.ctx)
	if err != nil {
		return fmt.Errorf("read the team's targets: %w", err)
	}
	for _, t := range targets {
		c.targets[targetKey(t.Name)] = namedTarget{t.Name, engineLimits(t.Limits), t.Revision}
	}
	return nil
}

// keepState writes the state if there is a memory; what went wrong is told, so
// that nobody takes for kept what is not.
func (c *Conversation) keepState() string {
	if c.memory == nil || c.forgotten {
		return ""
	}
	s := state{Advice: c.advice, Saved: c.saved, Pending: c.waits, Which: c.which}
	for _, v := range c.versions {
		s.Versions = append(s.Versions, toState(v))
	}
	if c.before != nil {
		before := toState(*c.before)
		s.Before = &before
	}
	data, err := json.Marshal(s)
	for err == nil && len(data) > store.MaxConversation && len(s.Versions) > 2 { // the oldest but the original goes first
		s.Versions = slices.Delete(s.Versions, 1, 2)
		data, err = json.Marshal(s)
	}
	if err == nil {
		var kept store.Conversation
		kept, err = c.memory.Team.SaveConversation(c.ctx, store.Conversation{ID: c.memory.ID, State: data, Revision: c.revision})
		if err == nil {
			c.revision = kept.Revision
			return ""
		}
	}
	if errors.Is(err, store.ErrConflict) {
		return "This conversation went on elsewhere meanwhile: what was said here last is not kept. Open it again."
	}
	return "This answer is not kept: " + err.Error() + "."
}

// Forgotten reports whether the conversation was just forgotten, so that nothing
// about it may be kept.
func (c *Conversation) Forgotten() bool { return c.forgotten }

// forgetAll removes every trace of this conversation.
func (c *Conversation) forgetAll() string {
	c.versions, c.advice, c.before, c.saved, c.waits, c.which = nil, advice{}, nil, nil, nil, ""
	if c.memory == nil {
		return "Forgotten: nothing of this conversation is kept."
	}
	if err := c.memory.Team.ForgetConversation(c.ctx, c.memory.ID); err != nil {
		return "It could not be forgotten: " + err.Error() + ". Say it again."
	}
	c.revision, c.forgotten = 0, true
	return "Forgotten: nothing of this conversation is kept. Recipes saved in the box stay."
}
