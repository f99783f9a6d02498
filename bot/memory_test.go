package bot_test

import (
	"context"
	"fmt"
	"regexp"
	"strings"
	"sync"
	"testing"

	"pottle/bot"
	"pottle/store"
)

// remembered is a conversation of a person, kept in s.
func remembered(t testing.TB, s store.Store, team, id, who string) *bot.Conversation {
	t.Helper()
	c := bot.NewConversation(newEngine(t))
	if err := c.Remember(context.Background(), bot.Memory{Team: s.In(team), ID: id, Who: who}); err != nil {
		t.Fatal(err)
	}
	return c
}

func memoryStore(t testing.TB) store.Store {
	t.Helper()
	s, err := store.OpenMemory(store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

func says(t testing.TB, c *bot.Conversation, text, part string) {
	t.Helper()
	if reply := c.Reply(text); !strings.Contains(reply, part) {
		t.Errorf("%q: the reply has no %q:\n%s", text, part, reply)
	}
}

const barley = "Barley pot\nServes 4\n1 cup pearl barley\n2 carrots\n1/2 tsp salt"

// TestConversationsAtOnce runs 50 conversations at once on one store; under the
// race detector nothing may be shared that is written.
func TestConversationsAtOnce(t *testing.T) {
	s := memoryStore(t)
	var all sync.WaitGroup
	for i := range 50 {
		all.Go(func() {
			team := fmt.Sprintf("T%d", i%5)
			c := remembered(t, s, team, fmt.Sprint("thread ", i), "Rowan")
			says(t, c, barley, "4 servings")
			says(t, c, fmt.Sprintf("salt %d tsp", i+1), "Version 2")
			says(t, c, fmt.Sprintf("save as pot %d", i), "Saved as pot")
			again := remembered(t, s, team, fmt.Sprint("thread ", i), "Kim")
			says(t, again, "what changed", fmt.Sprintf("→ %d tsp", i+1))
		})
	}
	all.Wait()
	for i := range 5 {
		c := remembered(t, s, fmt.Sprintf("T%d", i), "list", "Kim")
		if reply := c.Reply("list"); strings.Count(reply, "pot ") != 10 {
			t.Errorf("team %d has not its ten recipes and no more:\n%s", i, reply)
		}
	}
}

// TestTwoChangeOneRecipe: the second to save is told, and nothing is lost.
func TestTwoChangeOneRecipe(t *testing.T) {
	s := memoryStore(t)
	rowan, kim := remembered(t, s, "T", "one", "Rowan"), remembered(t, s, "T", "two", "Kim")
	says(t, rowan, barley, "4 servings")
	says(t, rowan, "save as barley pot", "Saved as barley pot, with 1 version.")
	says(t, kim, "open barley pot", "version 1 of 1, saved by Rowan")
	says(t, rowan, "drop the salt", "Version 2")
	says(t, rowan, "save", "with 2 versions")
	says(t, kim, "double the carrots", "Version 2")
	says(t, kim, "save", "Somebody else changed barley pot")
	says(t, kim, "save as carrot pot", "Saved as carrot pot, with 2 versions.")
	says(t, kim, "history of barley pot", "left out 1/2 tsp salt")
}

// TestOneConversationTwice: of two programs that go on with one conversation the
// second is told that what it said is not kept.
func TestOneConversationTwice(t *testing.T) {
	s := memoryStore(t)
	here := remembered(t, s, "T", "one", "Rowan")
	says(t, here, barley, "4 servings")
	there := remembered(t, s, "T", "one", "Rowan")
	says(t, there, "drop the salt", "Version 2")
	says(t, here, "double the carrots", "went on elsewhere")
	says(t, remembered(t, s, "T", "one", "Rowan"), "what changed", "left out 1/2 tsp salt")
}

// TestToldCookingIsKept: what was told of the cooking is there the next day, in
// the conversation and in the box.
func TestToldCookingIsKept(t *testing.T) {
	s := memoryStore(t)
	c := remembered(t, s, "T", "one", "Rowan")
	says(t, c, "Greens\nServes 4\n1 lb kale\n1 tbsp olive oil", "4 servings")
	says(t, c, "boiled and drained", "Version 2: taken as boiled and drained.")
	was := c.Reply("what brings the vitamin C")
	says(t, c, "save as greens", "with 2 versions")
	if again := remembered(t, s, "T", "one", "Kim").Reply("what brings the vitamin C"); again != was {
		t.Errorf("the next day:\n%s\nbefore:\n%s", again, was)
	}
	kim := remembered(t, s, "T", "two", "Kim")
	says(t, kim, "open greens", "version 2 of 2")
	if opened := kim.Reply("what brings the vitamin C"); opened != was {
		t.Errorf("from the box:\n%s\nbefore:\n%s", opened, was)
	}
	says(t, kim, "undo", "Undone: boiled and drained")
	if raw := kim.Reply("what brings the vitamin C"); raw == was {
		t.Error("undo did not take the cooking back")
	}
}

// TestAdviceIsKept: what was suggested yesterday, or by another process, can be
// applied today, by its number.
func TestAdviceIsKept(t *testing.T) {
	s := memoryStore(t)
	for i, ask := range []string{"", "cut sodium", "what can replace soy sauce", "make it gluten free"} {
		id := fmt.Sprint("advice ", i)
		here := remembered(t, s, "T", id, "Rowan")
		offered := here.Reply(riceBowl)
		if ask != "" {
			offered = here.Reply(ask)
		}
		first := firstOffer.FindStringSubmatch(offered)
		if first == nil {
			t.Fatalf("%q: nothing is offered:\n%s", ask, offered)
		}
		what := strings.ToLower(first[1][:1]) + first[1][1:]
		says(t, remembered(t, s, "T", id, "Kim"), "apply 1", "Version 2: "+what)
	}
}

// firstOffer is the first of the numbered suggestions of a reply.
var firstOffer = regexp.MustCompile(`(?m)^1  ([^:\n]+)`)

// TestRecipeBeforeIsKept: two pasted recipes are compared, the next day too.
func TestRecipeBeforeIsKept(t *testing.T) {
	s := memoryStore(t)
	c := remembered(t, s, "T", "one", "Rowan")
	says(t, c, barley, "4 servings")
	says(t, c, "Rice pot\nServes 4\n1 cup white rice\n2 carrots", "4 servings")
	says(t, remembered(t, s, "T", "one", "Rowan"), "compare with the recipe before", "A serving of Barley pot, then of Rice pot:")
}

// TestLongConversation: of a large recipe with many versions the original and the
// latest are kept, whatever the size of all.
func TestLongConversation(t *testing.T) {
	s := memoryStore(t)
	c := remembered(t, s, "T", "one", "Rowan")
	says(t, c, "Larder soup\nServes 9\n1 tsp salt\n"+strings.Repeat("1/2 cup chopped carrots, peeled and diced (about 2 oz)\n", 90), "9 servings")
	for i := range 20 {
		if reply := c.Reply(fmt.Sprintf("salt %d tsp", i+2)); strings.Contains(reply, "not kept") {
			t.Fatal(reply)
		}
	}
	again := remembered(t, s, "T", "one", "Rowan")
	says(t, again, "what changed", "→ 21 tsp")
	says(t, again, "back to the original", "back to the original")
}
