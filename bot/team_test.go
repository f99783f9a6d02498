package bot_test

import (
	"fmt"
	"sync"
	"testing"

	"pottle/bot"
)

// TestTeamsApart: of workspaces that share a store and an engine, each has its
// own words and foods, and a change shows with the next message, in every
// conversation of the workspace and in no other.
func TestTeamsApart(t *testing.T) {
	s, e := memoryStore(t), newEngine(t)
	asks := func(team, text, part string) {
		t.Helper()
		c := bot.NewConversation(e) // for every message, as a chat service does
		if err := c.Remember(t.Context(), bot.Memory{Team: s.In(team), ID: "thread", Who: "Rowan"}); err != nil {
			t.Fatal(err)
		}
		says(t, c, text, part)
	}
	const milk = "how many grams is 1 cup milk"
	asks("one", milk, "Whole milk, ")
	asks("one", "our milk is skim milk", "From now on")
	asks("one", milk, "milk is skim milk, as the team has it")
	asks("two", milk, "Whole milk, ")
	asks("two", "our milk is 1% milk", "From now on")
	asks("two", milk, "milk is 1% milk, as the team has it")
	asks("one", milk, "milk is skim milk, as the team has it")
	asks("one", "our milk is 2% milk", "From now on")
	asks("one", milk, "milk is 2% milk, as the team has it")
	asks("two", milk, "milk is 1% milk, as the team has it")
	asks("one", "forget our milk", "Forgotten")
	asks("one", milk, "Whole milk, ")
	asks("two", milk, "milk is 1% milk, as the team has it")

	const bar = "sodium in 40 g oat bar"
	asks("one", "add food: oat bar, 40 g: 150 kcal, fat 5 g, carbohydrate 20 g, protein 6 g, sodium 95 mg", "Kept")
	asks("one", bar, "95 mg")
	asks("two", "add food: oat bar, 40 g: 150 kcal, fat 5 g, carbohydrate 20 g, protein 6 g, sodium 35 mg", "Kept")
	asks("one", bar, "95 mg")
	asks("one", "change food oat bar: sodium 60 mg", "Kept")
	asks("one", bar, "60 mg")
	asks("two", bar, "35 mg")
	asks("one", "remove food oat bar", "Removed")
	asks("one", "add food: oat bar, 40 g: 150 kcal, fat 5 g, carbohydrate 20 g, protein 6 g, sodium 80 mg", "Kept") // revision 1, as the first had
	asks("one", bar, "80 mg")
	asks("two", bar, "35 mg")
}

// TestTeamsAtOnce is TestTeamsApart with everybody speaking at the same time.
func TestTeamsAtOnce(t *testing.T) {
	s, e := memoryStore(t), newEngine(t)
	var wait sync.WaitGroup
	for i := range 6 {
		wait.Go(func() {
			for j, milk := range []string{"skim milk", "1% milk", "2% milk"} {
				for k, text := range []string{"our milk is " + milk, "how many grams is 1 cup milk"} {
					c := bot.NewConversation(e)
					if err := c.Remember(t.Context(), bot.Memory{Team: s.In(fmt.Sprint("T", i)), ID: fmt.Sprint(j, k), Who: "Rowan"}); err != nil {
						t.Error(err)
						return
					}
					says(t, c, text, "milk is "+milk)
				}
			}
		})
	}
	wait.Wait()
}
