package bot_test

import (
	"fmt"
	"strings"
	"testing"

	"pottle/bot"
	"pottle/engine"
	"pottle/store"
)

// unknownFoods are foods that the table lacks, and texts that are none.
var unknownFoods = []string{"zorbleberry", "glimmerroot flour", "xyzzy", "smoked quuxfish", "vegan frobnitz cheese", "1 cup zorbleberry", "2 large zorbleberries", "100 g xyzzy", "1/2 can of quuxfish", "zorbleberry and xyzzy",
	"small zorbleberry", "ounce of xyzzy", "the", "of", "1", "a pound", "2 dozen", "¿?", "-", "zorbleberry, frobnitz, and xyzzy"}

// askedWith are the ways in which a food is asked about; %s is the food.
var askedWith = []string{"%s", "sodium in %s", "%s sodium", "sodium %s", "sodium and potassium in %s", "%s: carbs and fat", "macros in %s", "nutrition facts for %s", "how many carb choices in %s", "what is in %s",
	"compare %s with butter", "sodium: %s vs salt", "which has more iron, %s or spinach", "rank %s, apple and pear by fibre", "how many %s in a pound", "how many %s is 15 g carb", "how many cups is 500 g %s", "%s in grams", "1 cup %s in ml",
	"is %s gluten free", "can my client eat %s", "what can replace %s", "use %s instead of butter", "use %s", "with %s", "what about with %s", "what about %s", "drop %s", "add %s", "add 1 cup %s", "half the %s", "%s 1/2 cup",
	"how much %s for at most 350 kcal", "line 1 is %s", "what does %s weigh", "use 1 %s instead of 2", "gluten in %s", "why %s", "make it for %s", "our milk is %s", "show food %s", "15 g carbs of %s"}

// TestUnknownFoods asks about foods that are not found, in every wording, with and
// without a recipe and a memory: there is an answer, and no panic.
func TestUnknownFoods(t *testing.T) {
	e := newEngine(t)
	const recipe = "Bake\nServes 4\n2 cups flour\n1 cup milk\n2 eggs\n1 tbsp butter\n1 tsp zorbleberry"
	for _, inHand := range []bool{false, true} {
		for _, remembers := range []bool{false, true} {
			t.Run(fmt.Sprintf("recipe=%v,memory=%v", inHand, remembers), func(t *testing.T) {
				t.Parallel()
				for _, food := range unknownFoods {
					talk := conversation(t, e, remembers)
					if inHand {
						talk.Recipe(recipe)
					}
					for _, how := range askedWith {
						said := fmt.Sprintf(how, food)
						if reply := request(t, talk, said); strings.TrimSpace(reply) == "" {
							t.Errorf("%q: no reply", said)
						}
					}
				}
			})
		}
	}
}

// conversation returns a new conversation, with a memory of its own or without.
func conversation(t *testing.T, e *engine.Engine, remembers bool) *bot.Conversation {
	t.Helper()
	talk := bot.NewConversation(e)
	if remembers {
		s, err := store.OpenMemory(store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { s.Close() })
		if err := talk.Remember(t.Context(), bot.Memory{Team: s.In("clinic"), ID: "one", Who: "one"}); err != nil {
			t.Fatal(err)
		}
	}
	return talk
}

// request asks, and names the message that panics.
func request(t *testing.T, talk *bot.Conversation, said string) string {
	t.Helper()
	defer func() {
		if fault := recover(); fault != nil {
			t.Errorf("%q panics: %v", said, fault)
		}
	}()
	return talk.Request(said)
}
