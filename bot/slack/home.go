package slack

import (
	"fmt"
	"strings"

	"github.com/slack-go/slack"
)

// Limits of the Home tab: its blocks, and the names that are listed of each
// kind.
const (
	homeBlocks = 100
	homeNames  = 50
	homeName   = 200 // characters of a name
)

// beginning shows by example how to begin.
const beginning = `Paste a recipe as a message to pottle, a line for each ingredient:
` + codeFence + `
Lentil soup
Serves 6
1 1/2 cups dry lentils
2 carrots, chopped
1 tbsp olive oil
1 tsp salt
` + codeFence + `
The answer is what a serving holds, what was assumed, and what would help. Go on with "cut sodium", "apply 1", "scale to 24" or "save as lentil soup".

Or ask about one food: "sodium in 1 tsp soy sauce".

In a channel, begin with @pottle; replies in its thread need no @pottle. /pottle asks for your eyes only. On a recipe that somebody posted, choose More actions, then Work out this recipe. "help" lists what can be said.`

// Home is the Home tab: how to begin, by example, and the names of the recipes
// that the team worked on last and of those that it saved.
func Home(recent, saved []string) slack.HomeTabViewRequest {
	blocks := []slack.Block{heading("How to begin"), section(beginning)}
	if len(recent) > 0 {
		blocks = append(blocks, heading("Last worked on"))
		blocks = append(blocks, nameList(recent, "")...)
	}
	blocks = append(blocks, heading("Saved recipes"))
	if len(saved) == 0 {
		blocks = append(blocks, section("None yet. Say \"save as\" and a name, and the whole team can open the recipe."))
	} else {
		blocks = append(blocks, nameList(saved, fmt.Sprintf("Say \"open %s\" to take it in hand.", escapeLine(nameOf(saved[0]))))...)
	}
	return slack.HomeTabViewRequest{Type: slack.VTHomeTab, Blocks: slack.Blocks{BlockSet: append(blocks, section(reminder))}}
}

func heading(text string) slack.Block {
	return slack.NewHeaderBlock(slack.NewTextBlockObject(slack.PlainTextType, text, false, false))
}

// nameOf is a name on one line that is not too long to show.
func nameOf(name string) string {
	return shorten(strings.Join(strings.Fields(tidy(name)), " "), homeName)
}

// nameList lists names, a line each, and what follows them.
func nameList(names []string, then string) []slack.Block {
	var lines []string
	for _, name := range names[:min(len(names), homeNames)] {
		if name = nameOf(name); name != "" {
			lines = append(lines, escapeLine(name))
		}
	}
	if more := len(names) - homeNames; more > 0 {
		lines = append(lines, fmt.Sprintf("and %d more: say \"list\" for all.", more))
	}
	if then != "" {
		lines = append(lines, then)
	}
	var blocks []slack.Block
	var text strings.Builder
	for _, line := range lines {
		if text.Len() > 0 && text.Len()+len("\n")+len(line) > sectionLimit {
			blocks = append(blocks, section(text.String()))
			text.Reset()
		}
		if text.Len() > 0 {
			text.WriteString("\n")
		}
		text.WriteString(line)
	}
	return append(blocks, section(text.String()))
}
