package bot_test

import (
	"fmt"
	"regexp"
	"slices"
	"testing"
)

const riceBowl = "Rice bowl\nServes 4\n4 cups cooked white rice\n1/4 cup soy sauce\n1/2 tsp salt\n2 tbsp butter"

// anOffer is a numbered suggestion of a reply.
var anOffer = regexp.MustCompile(`(?m)^(\d+)  (.+)$`)

// TestOffered: what is on offer is what the reply shows after its numbers, at
// once and after the conversation was taken up again.
func TestOffered(t *testing.T) {
	s := memoryStore(t)
	for i, ask := range []string{"", "suggest", "cut sodium", "more fibre", "what can replace soy sauce", "make it gluten free", "cut sodium please"} {
		t.Run(ask, func(t *testing.T) {
			id := fmt.Sprint("offered ", i)
			c := remembered(t, s, "T", id, "Rowan")
			if got := c.Offered(); len(got) > 0 {
				t.Errorf("before anything was said: %q", got)
			}
			reply := c.Reply(riceBowl)
			if ask != "" {
				reply = c.Reply(ask)
			}
			var shown []string
			for j, m := range anOffer.FindAllStringSubmatch(reply, -1) {
				if m[1] != fmt.Sprint(j+1) {
					t.Fatalf("the numbers do not follow each other:\n%s", reply)
				}
				shown = append(shown, m[2])
			}
			if len(shown) == 0 {
				t.Fatalf("nothing is offered:\n%s", reply)
			}
			if got := c.Offered(); !slices.Equal(got, shown) {
				t.Errorf("offered %q, the reply shows %q", got, shown)
			}
			again := remembered(t, s, "T", id, "Kim")
			if got := again.Offered(); !slices.Equal(got, shown) {
				t.Errorf("taken up again, offered %q, the reply showed %q", got, shown)
			}
		})
	}
}

// TestOfferedEnds: an offer ends with the recipe, the version or the team's
// words that it was made for, and another one takes its place.
func TestOfferedEnds(t *testing.T) {
	c := remembered(t, memoryStore(t), "T", "one", "Rowan")
	says(t, c, riceBowl, `Say "apply 1"`)
	first := c.Offered()
	says(t, c, "what can replace butter", `Say "apply 1"`)
	if got := c.Offered(); len(got) == 0 || slices.Equal(got, first) {
		t.Errorf("after another question the offer is %q, was %q", got, first)
	}
	says(t, c, "cut sodium", `Say "apply 1"`)
	first = c.Offered()
	says(t, c, "it weighed 900 g cooked", "Version 2") // of the same recipe
	if got := c.Offered(); !slices.Equal(got, first) {
		t.Errorf("after a weight was told the offer is %q, was %q", got, first)
	}
	for _, end := range []string{"salt 1/4 tsp", "undo", "our butter is unsalted butter", "forget everything about this conversation"} {
		says(t, c, "cut sodium", `Say "apply 1"`)
		if c.Reply(end); len(c.Offered()) > 0 {
			t.Errorf("after %q still on offer: %q", end, c.Offered())
		}
	}
}
