package engine

import (
	"fmt"

	"pottle/fooddata"
)

// ForTeam returns an Engine like With, for foods that are not made into a table
// yet: the one that it made before for the same foods and words, if that is among
// the last Options.Teams. What is the same is decided by all of the content, so
// that a change shows at once and no team is answered by another's words. It
// returns the errors of fooddata.NewTable.
func (e *Engine) ForTeam(foods []fooddata.CustomFood, words map[string]string) (*Engine, error) {
	key := fmt.Sprintf("%#v %#v", foods, words) // quotes strings, sorts maps: different content, different key
	if kept, ok := e.teams.Get(key); ok {
		return kept, nil
	}
	t := Team{Words: words}
	if len(foods) > 0 {
		table, err := fooddata.NewTable("team", foods)
		if err != nil {
			return nil, err
		}
		t.Foods = table
	}
	own := e.With(t)
	if first, made, _ := e.teams.PeekOrAdd(key, own); made { // by another goroutine meanwhile
		return first, nil
	}
	return own, nil
}
