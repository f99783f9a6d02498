// Package storetest holds the suite that every store.Store must pass.
package storetest

import (
	"testing"
	"time"

	"pottle/store"
)

// Open gives a new, empty store that goes by the clock now, which the suite
// moves: nothing may read it of its own accord. The suite closes the store.
type Open func(t *testing.T, now func() time.Time) store.Store

// Run runs the suite; each test opens a store of its own.
func Run(t *testing.T, open Open) {
	for _, test := range []struct {
		name string
		run  func(*testing.T, *fixture)
	}{
		{"Conversation", conversations},
		{"ConversationExpiry", conversationExpiry},
		{"ConversationLimits", conversationLimits},
		{"Forget", forget},
		{"Recipe", recipes},
		{"RecipeNames", recipeNames},
		{"RecipeConflict", recipeConflict},
		{"RecipeVersionsNeverChange", recipeVersions},
		{"RecipeLimits", recipeLimits},
		{"RecipeDelete", recipeDelete},
		{"RecipeHistory", recipeHistory},
		{"EachRecipe", eachRecipe},
		{"FindByName", findByName},
		{"FindByFigures", findByFigures},
		{"FindFollowsChanges", findFollows},
		{"FindLikeScan", findLikeScan},
		{"Foods", foods},
		{"Words", words},
		{"Targets", targets},
		{"Settings", settings},
		{"Changes", changes},
		{"Events", events},
		{"EventPayloads", payloads},
		{"Marks", marks},
		{"MarkLimits", markLimits},
		{"Access", accesses},
		{"Leaving", leaving},
		{"Workspaces", workspaces},
		{"WorkspacesHostile", hostile},
		{"Concurrent", concurrent},
		{"RecipeConflictConcurrent", conflictConcurrent},
		{"Closed", closed},
	} {
		t.Run(test.name, func(t *testing.T) {
			f := &fixture{clock: time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC)}
			f.s = open(t, func() time.Time { return f.clock })
			f.w = f.s.In("T1")
			t.Cleanup(func() {
				if err := f.s.Close(); err != nil {
					t.Errorf("close: %v", err)
				}
			})
			test.run(t, f)
		})
	}
}

// fixture is a store with its clock, which a test may move while nothing runs.
type fixture struct {
	s     store.Store
	w     store.Workspace
	clock time.Time
}

func (f *fixture) pass(d time.Duration) { f.clock = f.clock.Add(d) }
